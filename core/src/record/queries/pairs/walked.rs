//! The common walk: two phones that go through one pile come to its planks in the same order, or in the
//! contrary one, though each leaves some out.
//!
//! Of all candidates the chain is looked for that goes on in both phones' order, whose evidence is largest
//! against what it leaves out (a local alignment, Smith and Waterman 1981, of the candidates alone, from
//! memory). It has to be so strong that chance gives it in few piles; otherwise the order says nothing.

/// A place of one phone, and the place of the other that it goes with.
type Step = (usize, usize);

/// Two planks of a lot that may be one.
#[derive(Debug, Clone)]
pub(crate) struct PossiblePair {
    /// Places in the lot.
    pub(crate) a: usize,
    pub(crate) b: usize,
    /// The logarithm of how much likelier they are so alike as one plank than as two.
    pub(crate) evidence: f64,
    pub(crate) apart: f64,
    pub(crate) compared: u32,
    pub(crate) defects: u32,
}

/// What it costs to go on together, to leave one plank out, and at most to leave out many: logarithms of how often
/// that happens where two thirds of the planks are common. Common practice, no source.
const ON_TOGETHER: f64 = 0.6;
const LEFT_OUT: f64 = 1.4;
const MANY_LEFT_OUT: f64 = 8.0;
/// A walk is stronger than chance by this, once in twenty piles of unlike planks.
const STRONGER: f64 = 3.0;
/// How far beside its place a walk still looks.
const SLACK: f64 = 2.0;
/// So often a plank is where the walk has it, if it is in both.
const ON_THE_WAY: f64 = 0.9;

/// Through how many planks two phones went together.
pub(crate) struct Walk {
    /// The places of the one and the other, rising in the first.
    steps: Vec<(usize, usize)>,
    /// The other went the contrary way.
    contrary: bool,
    /// How many planks the other has.
    others: usize,
}

/// The best so far, by places of the other phone: the largest of all up to a place.
struct Largest(Vec<Option<(f64, usize)>>);

impl Largest {
    fn new(size: usize) -> Self {
        Self(vec![None; size + 1])
    }

    fn put(&mut self, place: usize, value: f64, step: usize) {
        let mut at = place + 1;
        while at < self.0.len() {
            if self.0[at].is_none_or(|(known, _)| known < value) {
                self.0[at] = Some((value, step));
            }
            at += at & at.wrapping_neg();
        }
    }

    fn before(&self, place: usize) -> Option<(f64, usize)> {
        let mut found: Option<(f64, usize)> = None;
        let mut at = place;
        while at > 0 {
            if let Some(one) = self.0[at]
                && found.is_none_or(|known| known.0 < one.0)
            {
                found = Some(one);
            }
            at -= at & at.wrapping_neg();
        }
        found
    }
}

fn strongest(steps: &[(usize, usize, f64)], others: usize) -> (f64, Vec<(usize, usize)>) {
    let mut near = Largest::new(others);
    let mut far = Largest::new(others);
    let mut best: Vec<(f64, Option<usize>)> = Vec::with_capacity(steps.len());
    let mut from = 0;
    while from < steps.len() {
        let place = steps[from].0;
        let row = steps[from..]
            .iter()
            .take_while(|step| step.0 == place)
            .count();
        for &(at, there, evidence) in &steps[from..from + row] {
            let gone = LEFT_OUT * (at + there) as f64;
            let on = near
                .before(there)
                .map(|(value, step)| (value - gone + 2.0 * LEFT_OUT, step));
            let over = far
                .before(there)
                .map(|(value, step)| (value - MANY_LEFT_OUT, step));
            let longer = on.into_iter().chain(over).filter(|(value, _)| *value > 0.0);
            let longer = longer.reduce(|a, b| if b.0 > a.0 { b } else { a });
            let before = longer.map_or(0.0, |(value, _)| value);
            best.push((
                before + evidence - ON_TOGETHER,
                longer.map(|(_, step)| step),
            ));
        }
        // Two of one row are never in one chain.
        for step in from..from + row {
            let ((at, there, _), (value, _)) = (steps[step], best[step]);
            near.put(there, value + LEFT_OUT * (at + there) as f64, step);
            far.put(there, value, step);
        }
        from += row;
    }
    let last = (0..best.len()).max_by(|a, b| best[*a].0.total_cmp(&best[*b].0).then(b.cmp(a)));
    let strength = last.map_or(0.0, |last| best[last].0);
    let mut chain = Vec::new();
    let mut step = last;
    while let Some(at) = step {
        chain.push((steps[at].0, steps[at].1));
        step = best[at].1;
    }
    chain.reverse();
    (strength, chain)
}

impl Walk {
    /// Out of candidates by their places, with their evidence; `None` where no chain is stronger than chance.
    pub(crate) fn of(
        mut steps: Vec<(usize, usize, f64)>,
        (planks, others): (usize, usize),
    ) -> Option<Self> {
        crate::order::sort_by_key(&mut steps, |(at, there, _)| (*at, *there));
        let turned: Vec<(usize, usize, f64)> = steps
            .iter()
            .map(|(at, there, evidence)| (*at, others - 1 - there, *evidence))
            .collect();
        let ways = [strongest(&steps, others), strongest(&turned, others)];
        let contrary = ways[1].0 > ways[0].0;
        let [same, other_way] = ways;
        let (strength, steps) = if contrary { other_way } else { same };
        let chance = libm::log((planks * others) as f64) + STRONGER;
        (strength > chance).then_some(Self {
            steps,
            contrary,
            others,
        })
    }

    fn turned(&self, there: usize) -> usize {
        match self.contrary {
            true => self.others - 1 - there,
            false => there,
        }
    }

    /// The steps before and after a place, its own left out, in the way walked.
    fn around(&self, place: usize) -> (Option<Step>, Option<Step>) {
        let after = self.steps.partition_point(|(at, _)| *at <= place);
        let own = self.steps.partition_point(|(at, _)| *at < place);
        let before = own.checked_sub(1).and_then(|at| self.steps.get(at));
        (before.copied(), self.steps.get(after).copied())
    }

    /// Between which places of the other, in the way walked, a plank is to be expected; the second not among
    /// them.
    fn expects(&self, place: usize) -> (f64, f64) {
        match self.around(place) {
            (Some((_, before)), Some((_, after))) => (before as f64 + 1.0, after as f64),
            // Before the first step and after the last they go on as they went.
            (None, Some((at, there))) => {
                let here = there as f64 - (at - place) as f64;
                let slack = (at - place) as f64 / 2.0;
                (here - slack, here + slack + 1.0)
            }
            (Some((at, there)), None) => {
                let here = there as f64 + (place - at) as f64;
                let slack = (place - at) as f64 / 2.0;
                (here - slack, here + slack + 1.0)
            }
            (None, None) => (0.0, self.others as f64),
        }
    }

    /// The same as places of the other phone.
    pub(crate) fn between(&self, place: usize) -> (usize, usize) {
        let (from, to) = self.expects(place);
        let bound = |at: f64| at.clamp(0.0, self.others as f64) as usize;
        let (from, to) = (bound(from), bound(to));
        match self.contrary {
            true => (self.others - to, self.others - from),
            false => (from, to),
        }
    }

    /// How likely a plank is this one of the other, by their places alone, against being none; and whether the
    /// walk has them at one place. `most` planks has the phone that has more.
    pub(crate) fn prior(&self, (at, there): (usize, usize), most: f64) -> (f64, bool) {
        let (from, to) = self.expects(at);
        let there = self.turned(there) as f64;
        let beside = (from - there).max(there + 1.0 - to).max(0.0);
        let near = libm::exp(-beside / SLACK) / ((to - from).max(1.0) + 2.0 * SLACK);
        let prior = ON_THE_WAY * near + (1.0 - ON_THE_WAY) / most;
        (prior, beside <= SLACK)
    }
}
