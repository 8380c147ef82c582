//! Things by their ids. Ids made on one day begin alike, and byte by byte it takes long to tell them
//! apart; here they are compared as the numbers that they are, in the same order.

use std::collections::{BTreeMap, btree_map};
use uuid::Uuid;

/// A map from ids, in their order.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ById<T>(BTreeMap<u128, T>);

impl<T> Default for ById<T> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<T> ById<T> {
    pub(crate) fn len(&self) -> usize {
        self.0.len()
    }

    pub(crate) fn contains_key(&self, id: &Uuid) -> bool {
        self.0.contains_key(&id.as_u128())
    }

    pub(crate) fn get(&self, id: &Uuid) -> Option<&T> {
        self.0.get(&id.as_u128())
    }

    pub(crate) fn get_mut(&mut self, id: &Uuid) -> Option<&mut T> {
        self.0.get_mut(&id.as_u128())
    }

    pub(crate) fn insert(&mut self, id: Uuid, value: T) -> Option<T> {
        self.0.insert(id.as_u128(), value)
    }

    pub(crate) fn entry(&mut self, id: Uuid) -> btree_map::Entry<'_, u128, T> {
        self.0.entry(id.as_u128())
    }

    pub(crate) fn keys(&self) -> impl Iterator<Item = Uuid> {
        self.0.keys().copied().map(Uuid::from_u128)
    }

    pub(crate) fn values(&self) -> impl Iterator<Item = &T> {
        self.0.values()
    }

    pub(crate) fn values_mut(&mut self) -> impl Iterator<Item = &mut T> {
        self.0.values_mut()
    }

    pub(crate) fn iter_mut(&mut self) -> impl Iterator<Item = (Uuid, &mut T)> {
        self.0
            .iter_mut()
            .map(|(id, value)| (Uuid::from_u128(*id), value))
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (Uuid, &T)> {
        self.0
            .iter()
            .map(|(id, value)| (Uuid::from_u128(*id), value))
    }
}

impl<T> FromIterator<(Uuid, T)> for ById<T> {
    fn from_iter<I: IntoIterator<Item = (Uuid, T)>>(pairs: I) -> Self {
        let mut map = BTreeMap::new();
        map.extend(pairs.into_iter().map(|(id, value)| (id.as_u128(), value)));
        Self(map)
    }
}

#[cfg(test)]
mod tests {
    use super::ById;
    use uuid::Uuid;

    #[test]
    fn in_the_order_of_the_ids_as_they_are_written() {
        let written = [
            "017f22e2-79b0-7cc3-98c4-dc0c0c07398f",
            "ff7f22e2-79b0-7cc3-98c4-dc0c0c07398f",
            "017f22e2-79b0-7cc3-98c4-dc0c0c073990",
            "017f22e2-79b0-7cc3-08c4-dc0c0c07398f",
        ];
        let ids: ById<usize> = written
            .iter()
            .enumerate()
            .map(|(n, id)| (id.parse().unwrap(), n))
            .collect();
        let mut sorted = written;
        sorted.sort_unstable();
        let found: Vec<String> = ids.keys().map(|id: Uuid| id.to_string()).collect();
        assert_eq!(found, sorted);
        assert_eq!(ids.get(&written[2].parse().unwrap()), Some(&2));
    }
}
