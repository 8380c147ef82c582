//! Sets of qualities, and which of them each measurement moves.

use super::Quality;
use super::quality::crook_is_kinked;
use crate::plank::{Plank, Source};

/// A set of qualities.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Qualities(u8);

impl Qualities {
    pub(super) const fn of(qualities: &[Quality]) -> Self {
        let (mut set, mut at) = (Self(0), 0);
        while at < qualities.len() {
            set = set.with(qualities[at]);
            at += 1;
        }
        set
    }

    /// With one more.
    pub(super) const fn with(self, one: Quality) -> Self {
        Self(self.0 | 1 << one as u8)
    }

    pub(super) const fn hold(self, one: Quality) -> bool {
        self.0 & 1 << one as u8 != 0
    }

    pub(super) const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Those that are in the other set too.
    pub(super) const fn and(self, others: Self) -> Self {
        Self(self.0 & others.0)
    }

    /// With those of the other set.
    pub(super) const fn and_also(self, others: Self) -> Self {
        Self(self.0 | others.0)
    }

    /// Those that are not in the other set.
    pub(super) const fn without(self, others: Self) -> Self {
        Self(self.0 & !others.0)
    }

    pub(super) const fn count(self) -> usize {
        self.0.count_ones() as usize
    }

    /// One after another, as they are declared.
    pub(super) fn each(self) -> impl Iterator<Item = Quality> {
        let mut left = self.0;
        std::iter::from_fn(move || {
            let one = *DECLARED.get(left.trailing_zeros() as usize)?;
            left &= left - 1;
            Some(one)
        })
    }

    /// Those that are others under another part, or another way of cutting it out.
    pub(super) const DEPENDING_ON_CUT: Self = {
        let (mut set, mut at) = (Self(0), 0);
        while at < Quality::COUNT {
            if Quality::ALL[at].depends_on_cut() {
                set = set.with(Quality::ALL[at]);
            }
            at += 1;
        }
        set
    };

    /// Those of them that are others already where a part is laid the same way: rings stand as it is laid,
    /// whatever its sizes.
    pub(super) const DEPENDING_ON_SIZES: Self =
        Self::DEPENDING_ON_CUT.without(Self::of(&[Quality::RingAngle]));

    /// Those that a measurement moves in a plank.
    pub(super) fn moved_by(source: Source, plank: &Plank) -> Self {
        MOVED[usize::from(crook_is_kinked(plank))][source as usize]
    }

    /// Those that a measurement may move, whatever the plank.
    pub(super) const fn may_be_moved_by(source: Source) -> Self {
        MOVED[0][source as usize].and_also(MOVED[1][source as usize])
    }
}

impl Quality {
    /// How many there are.
    pub(super) const COUNT: usize = Quality::ALL.len();
}

const DECLARED: [Quality; Quality::COUNT] = {
    let (mut declared, mut at) = ([Quality::Straightness; Quality::COUNT], 0);
    while at < Quality::COUNT {
        declared[Quality::ALL[at] as usize] = Quality::ALL[at];
        at += 1;
    }
    declared
};

type BySource = [Qualities; Source::ALL.len()];

const MOVED: [BySource; 2] = [moved(false), moved(true)];

const fn moved(kinked: bool) -> BySource {
    let (mut moved, mut at) = ([Qualities(0); Source::ALL.len()], 0);
    while at < Quality::COUNT {
        let quality = Quality::ALL[at];
        let mut source = 0;
        while source < Source::ALL.len() {
            if quality.sources_if(kinked).hold(Source::ALL[source]) {
                let by = Source::ALL[source] as usize;
                moved[by] = moved[by].with(quality);
            }
            source += 1;
        }
        at += 1;
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Bend, BendShape};
    use crate::quantity::mm;

    #[test]
    fn a_set_gives_what_was_put_in() {
        assert_eq!(Qualities::default().each().count(), 0);
        for one in Quality::ALL {
            assert_eq!(Qualities::of(&[*one]).each().collect::<Vec<_>>(), [*one]);
        }
        let mut all: Vec<_> = Qualities::of(Quality::ALL).each().collect();
        let mut wanted = Quality::ALL.to_vec();
        all.sort();
        wanted.sort();
        assert_eq!(all, wanted);
    }

    #[test]
    fn sets_are_cut_and_taken_away() {
        use Quality::*;
        let (a, b) = (
            Qualities::of(&[Crook, Size]),
            Qualities::of(&[Size, Density]),
        );
        assert_eq!(a.and(b), Qualities::of(&[Size]));
        assert_eq!(a.without(b), Qualities::of(&[Crook]));
        assert!(a.and(Qualities::of(&[Moisture])).is_empty() && !a.hold(Density));
    }

    #[test]
    fn a_measurement_moves_what_is_said_to_hang_on_it() {
        let crook = |shape| Bend {
            gap: mm(4.0),
            over: None,
            shape,
            signed: true,
        };
        for shape in [BendShape::Even, BendShape::Kink(mm(900.0))] {
            let plank = Plank {
                crook: Some(crook(shape)),
                ..Plank::default()
            };
            for source in Source::ALL {
                let moved = Qualities::moved_by(*source, &plank);
                assert_eq!(
                    moved.without(Qualities::may_be_moved_by(*source)),
                    Qualities::of(&[])
                );
                for quality in Quality::ALL {
                    let hangs = quality.sources(&plank).hold(*source);
                    assert_eq!(moved.hold(*quality), hangs, "{quality:?} {source:?}");
                }
            }
        }
        assert!(!Qualities::moved_by(Source::Bow, &Plank::default()).hold(Quality::Crook));
        assert!(Qualities::may_be_moved_by(Source::Bow).hold(Quality::Crook));
    }
}
