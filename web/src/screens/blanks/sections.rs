//! Sections of blanks, drawn to one scale, and their woods in words: each with its fill and its places.

use crate::drawings::{SectionDrawn, fill_key, scale_for, section_drawn};
use crate::parts::CollectAny;
use leptos::prelude::*;
use stillwood_core::quantity::in_mm;
use stillwood_core::record::Section;

/// The sections of some blanks, with the woods in all of them, by whose number each is drawn.
pub(super) struct Sections {
    woods: Vec<String>,
    drawn: Vec<Option<SectionDrawn>>,
    scale: f64,
}

impl Sections {
    /// Of each blank its own, where that is known.
    pub(super) fn of<'a>(sections: impl Iterator<Item = Option<&'a Section>>) -> Self {
        let mut woods: Vec<String> = Vec::new();
        let mut number = |wood: &String| match woods.iter().position(|known| known == wood) {
            Some(at) => at,
            None => {
                woods.push(wood.clone());
                woods.len() - 1
            }
        };
        let mut draw = |section: &Section| {
            let laminates = section.laminates.iter();
            SectionDrawn {
                laminates: laminates
                    .map(|one| (in_mm(one.thickness), number(&one.wood)))
                    .collect(),
                depth: in_mm(section.depth),
            }
        };
        let drawn: Vec<_> = sections.map(|section| section.map(&mut draw)).collect();
        let known: Vec<SectionDrawn> = drawn.iter().flatten().cloned().collect();
        Self {
            woods,
            drawn,
            scale: scale_for(&known),
        }
    }

    fn at(&self, at: usize) -> Option<&SectionDrawn> {
        self.drawn.get(at)?.as_ref()
    }

    /// The woods of a section, each with its places from one side: `walnut 2, 4`.
    fn by_place(&self, section: &SectionDrawn) -> Vec<(usize, String)> {
        let woods = self.woods.iter().enumerate();
        let named = |(number, wood): (usize, &String)| {
            let laminates = section.laminates.iter().enumerate();
            let places = laminates.filter(|(_, (_, of))| *of == number);
            let places: Vec<String> = places.map(|(at, _)| (at + 1).to_string()).collect();
            (!places.is_empty()).then(|| (number, format!("{wood} {}", places.join(", "))))
        };
        woods.filter_map(named).collect()
    }

    /// The drawing of one of them.
    pub(super) fn drawn(&self, at: usize) -> Option<AnyView> {
        let section = self.at(at)?;
        let woods = self.by_place(section).into_iter();
        let woods: Vec<String> = woods.map(|(_, words)| words).collect();
        let said = format!("Its section, from one side: {}", woods.join("; "));
        Some(section_drawn(section, self.scale, said))
    }

    /// The woods of one of them, with their fills and places.
    pub(super) fn woods(&self, at: usize) -> Option<AnyView> {
        let one = |(number, words): (usize, String)| {
            view! { <span class="wood-key">{fill_key(number)} " " {words}</span> }
        };
        let woods = self.by_place(self.at(at)?).into_iter();
        Some(woods.map(one).collect_any())
    }
}
