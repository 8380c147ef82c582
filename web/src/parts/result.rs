//! What core worked out for a plank, as the screens show it: score, criteria, figures, pictures.

use crate::drawings::{Bent, Cuts, DensityStrip, EndGrain, GrainLines, Twisted};
use crate::parts::{CollectAny, drawn_rings, facts_drawn, given, pith_words, told_figure};
use leptos::prelude::*;
use stillwood_core::neck::{BestBlanks, PartCount};
use stillwood_core::plank::{
    AngleSpan, Bend, GrainSlope, Hand, mean_of_stations, profile, whole_gap,
};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{
    Conformance, Derivation, Estimate, Scalar, in_degrees, in_kg, in_kg_per_m3, in_m3, in_mm, show,
};
use stillwood_core::verdict::{
    Criterion, CriterionScore, Evaluation, Form, Number, Recommendation, RingsAcross, Sheet,
    SlabCounted, Spec, working,
};
use stillwood_core::wood::{Origin, Species, Strength, strength_tested};

/// The class that colours a call; the words are always beside it.
pub(crate) fn call_class(call: Recommendation) -> &'static str {
    match call {
        Recommendation::Good | Recommendation::GoodSoFar => "good",
        Recommendation::Refused => "bad",
        Recommendation::TooClose => "doubt",
        Recommendation::NothingYet => "",
    }
}

/// Score, call and weakest point in one strip.
#[component]
pub(crate) fn ScoreStrip(
    /// The verdict.
    verdict: Evaluation,
    /// How its score was worked out.
    tell: Box<dyn Fn() -> Option<Derivation>>,
) -> impl IntoView {
    let score = match verdict.score {
        Some(score) => told_figure("Score of 100".to_owned(), format!("{score:.0}"), tell),
        None => "–".into_any(),
    };
    let weakest = match (verdict.fatal_defects.first(), verdict.weakest) {
        (Some(fault), _) => format!("fault: {}", fault.name()),
        (None, Some(criterion)) => format!("weakest: {}", criterion.name()),
        (None, None) => String::new(),
    };
    let repeat = verdict
        .closest()
        .and_then(CriterionScore::repeat)
        .filter(|_| verdict.recommendation == Recommendation::TooClose);
    view! {
        <div class=format!("score-strip {}", call_class(verdict.recommendation)) aria-live="polite">
            <span class="score">{score}</span>
            <span class="say">
                <strong>{verdict.recommendation.words()}</strong>
                <br />
                <small>
                    {weakest}
                    {repeat.map(|source| format!("; measure the {} again", source.name()))}
                </small>
            </span>
            <small>"of 100"</small>
        </div>
    }
}

/// A criterion's value in words, with its unit.
pub(crate) fn quality_value(
    criterion: Criterion,
    value: f64,
    expanded: f64,
    units: Units,
) -> String {
    match criterion {
        Criterion::Straightness | Criterion::Crook => show::length_within(value, expanded, units),
        Criterion::Density => show::density_within(value, expanded, units),
        Criterion::GrainSlope => show::slope_within(value, expanded),
        Criterion::RingAngle => format!("{}°", show::give_or_take(value, expanded, 0)),
        Criterion::Moisture => format!("{} %", show::give_or_take(value, expanded, 1)),
        Criterion::Size if value == 1.0 => "1 part".into(),
        Criterion::Size => format!("{value:.0} parts"),
    }
}

fn wanted(criterion: Criterion, form: Form, units: Units) -> String {
    let shown = |value| quality_value(criterion, value, 0.0, units);
    match form {
        Form::AtMost { target, limit } => {
            format!("good to {}, limit {}", shown(target), shown(limit))
        }
        Form::AtLeast { target, limit } => {
            format!("good from {}, limit {}", shown(target), shown(limit))
        }
        Form::Within {
            low_limit,
            low_target,
            high_target,
            high_limit,
        } => format!(
            "good {} to {}, limits {} and {}",
            shown(low_target),
            shown(high_target),
            shown(low_limit),
            shown(high_limit)
        ),
    }
}

/// Every criterion with its value, score and limit, the weakest marked; then what was left out.
#[component]
pub(crate) fn Criteria(
    /// The sheet with the verdict.
    sheet: Sheet,
    /// The spec it was judged by.
    spec: Spec,
    /// The maker's units.
    units: Units,
) -> impl IntoView {
    let verdict = sheet.verdict.clone();
    let asked = StoredValue::new((sheet, spec));
    let weakest = verdict.weakest;
    let one = move |scored: CriterionScore| {
        let criterion = scored.requirement.criterion;
        let (class, word) = match scored.conformance {
            Conformance::Inside => ("word good", "inside"),
            Conformance::TooClose => ("word doubt", "too close to call"),
            Conformance::Beyond => ("word bad", "beyond"),
        };
        let name = if weakest == Some(criterion) {
            format!("{} (weakest)", criterion.name())
        } else {
            criterion.name().to_owned()
        };
        let repeat = scored.repeat().map(|source| {
            let sure = told_figure(
                format!("How sure of {}", criterion.name()),
                format!(
                    "{:.0} % sure that it is inside",
                    scored.probability() * 100.0
                ),
                tell(asked, Number::Score(criterion)),
            );
            view! { " " {sure} {format!(": measure the {} again.", source.name())} }
        });
        let value = quality_value(
            criterion,
            scored.estimate.value,
            scored.estimate.expanded(),
            units,
        );
        let score = told_figure(
            format!("Score for {}", criterion.name()),
            format!("{value} · {:.0}", scored.score),
            tell(asked, Number::Score(criterion)),
        );
        view! {
            <li class:weakest=weakest == Some(criterion)>
                <span>{name}" "<span class=class>{word}</span></span>
                <span class="value">{score}</span>
                <svg class="bar" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
                    <rect x="0" y="0" width="100" height="4" fill="#e2d6c3" />
                    <rect x="0" y="0" width=scored.score height="4" fill="#17512c" />
                </svg>
                <span class="remark">
                    {given(wanted(criterion, scored.requirement.form, units))}". "{repeat}
                    {scored.at_best.map(|why| format!(" At best: {why}."))}
                </span>
            </li>
        }
    };
    let unscored = verdict.unscored.clone();
    view! {
        <ul class="criteria">
            {verdict
                .fatal_defects
                .iter()
                .map(|fault| {
                    view! {
                        <li>
                            <span>{fault.name()}" "<span class="word bad">"fatal in this spec"</span></span>
                            <span class="value">"0"</span>
                            <span class="remark">{fault.definition()}</span>
                        </li>
                    }
                })
                .collect_any()}
            {verdict.scored.into_iter().map(one).collect_any()}
            {unscored
                .into_iter()
                .map(|left| {
                    view! {
                        <li>
                            <span>{left.criterion.name()}</span>
                            <span class="value">"not judged"</span>
                            <span class="remark">{left.why}</span>
                        </li>
                    }
                })
                .collect_any()}
        </ul>
    }
}

fn figure<Q: Scalar, S: Copy>(
    estimate: &Option<Estimate<Q, S>>,
    of: impl Fn(Q) -> f64,
    show: impl Fn(f64, f64) -> String,
) -> Option<String> {
    let estimate = estimate.as_ref()?;
    Some(show(of(estimate.value), of(estimate.expanded())))
}

/// The figures of a plank.
#[component]
pub(crate) fn Results(
    /// Its sheet.
    sheet: Sheet,
    /// The spec it was judged by.
    spec: Spec,
    /// The maker's units.
    units: Units,
) -> impl IntoView {
    let length = |mm: f64| show::length(mm, units);
    let density = |rho: f64, within: f64| show::density_within(rho, within, units);
    let flattened = |width: f64| format!("{} × {}", length(spec.part.length_mm), length(width));
    let sawn_first = flattened(in_mm(spec.cut_spec().flattened_width()));
    let seen = sheet.plank.at_least;
    let open = seen.bow || seen.twist || seen.cup;
    let at_least = |gap: String, open: bool| match open {
        true => format!("at least {gap}"),
        false => gap,
    };
    let slab = sheet
        .slab
        .as_ref()
        .map(|slab| show::length_within(in_mm(slab.value), in_mm(slab.expanded()), units))
        .map(|slab| {
            if open {
                format!("at best {slab}")
            } else {
                slab
            }
        });
    // Of a kink both are shown: the slab that counts above, the other below it.
    let other = sheet
        .cut_first
        .filter(|slab| slab.both.cut_on_kink != slab.both.bend_inside)
        .map(|slab| match slab.counted {
            SlabCounted::BendInside => (
                "… with a cut on the kink",
                slab.both.cut_on_kink,
                Number::SlabOnKink,
            ),
            SlabCounted::CutOnKink => (
                "… with the kink inside",
                slab.both.bend_inside,
                Number::SlabBendInside,
            ),
        });
    let otherwise = sheet.slab_cut_otherwise.map(|other| {
        (
            format!(
                "Straight slab if cut first to {}",
                flattened(in_mm(other.width))
            ),
            Some(length(in_mm(other.slab.thickness))),
            Number::SlabCutOtherwise,
        )
    });
    let whole = sheet.whole.map(|slab| length(in_mm(slab.thickness)));
    let grain = sheet.grain.map(|grain| match grain {
        GrainSlope::Combined(slope) => show::slope(slope.in_tangent()),
        GrainSlope::AtLeastFace(slope) => format!(
            "{} on the face, edge not seen",
            show::slope(slope.in_tangent())
        ),
        GrainSlope::AtLeastEdge(slope) => format!(
            "{} on the edge, face not seen",
            show::slope(slope.in_tangent())
        ),
    });
    let rings = sheet.rings.map(|rings| {
        format!(
            "{} {}; the part stands {} {}",
            rings.class.name(),
            show::angle(in_degrees(rings.lies)),
            rings.stands_class.name(),
            show::angle(in_degrees(rings.stands))
        )
    });
    let held = sheet.held.as_ref().map(|held| held_words(held, &spec));
    let strength = sheet.grain.and_then(|grain| {
        let left = strength_tested(&mut TraceOff, Strength::Bending, grain.at_least()).ok()?;
        Some(format!("about {:.0} %", left * 100.0))
    });
    let across = sheet
        .rings_across()
        .map(|across| rings_across_words(&across, units));
    let best = sheet
        .best_places(&spec)
        .map(|best| best_words(&best, units));
    let other = other.map(|(name, slab, number)| {
        let thickness = Some(length(in_mm(slab.thickness)));
        (name.to_owned(), thickness, number)
    });
    let mut facts = vec![(
        format!("Straight slab if cut first to {sawn_first}"),
        slab,
        Number::Slab,
    )];
    facts.extend(other);
    facts.extend(otherwise);
    facts.extend([
        (
            "Straight slab if flattened whole first".into(),
            whole,
            Number::SlabWhole,
        ),
        (
            "Bow left in the part".into(),
            sheet
                .bow_left
                .map(|left| at_least(length(in_mm(sheet.counted(left))), seen.bow)),
            Number::BowLeft,
        ),
        (
            "Crook left in the part".into(),
            sheet
                .crook_left
                .map(|left| at_least(length(in_mm(sheet.counted(left))), seen.crook)),
            Number::CrookLeft,
        ),
        (
            "Slope of grain, both faces together".into(),
            grain,
            Number::Grain,
        ),
        (
            "Runout over the part".into(),
            sheet.runout.map(|r| length(in_mm(r))),
            Number::Runout,
        ),
        ("Rings".into(), rings, Number::Rings),
        (
            "Weight".into(),
            figure(&sheet.mass, in_kg, |kg, within| {
                show::mass_within(kg, within, units)
            }),
            Number::Mass,
        ),
        (
            "Volume".into(),
            figure(&sheet.volume, in_m3, |m3, within| {
                format!("{} m³", show::give_or_take(m3, within, 5))
            }),
            Number::Volume,
        ),
        (
            "Density as measured".into(),
            figure(&sheet.density, in_kg_per_m3, density),
            Number::Density,
        ),
        (
            "Density at 12 %".into(),
            figure(&sheet.density_at_12, in_kg_per_m3, density),
            Number::DensityAt12,
        ),
        (
            "Moisture, corrected for cold wood".into(),
            figure(
                &sheet.moisture,
                |m| m.in_percent(),
                |m, within| format!("{} %", show::give_or_take(m, within, 1)),
            ),
            Number::Moisture,
        ),
        ("Holds".into(), held, Number::Held),
        (
            "Bending strength left at this slope (handbook's tests)".into(),
            strength,
            Number::Strength,
        ),
        ("Rings across the width".into(), across, Number::RingsAcross),
        ("Best places along it".into(), best, Number::BestPlaces),
    ]);
    let cannot = sheet.cannot.clone();
    let asked = StoredValue::new((sheet, spec));
    let facts: Vec<(String, AnyView)> = facts
        .into_iter()
        .filter_map(|(name, figure, number): (String, Option<String>, Number)| {
            let figure = told_figure(name.clone(), figure?, tell(asked, number));
            Some((name, figure))
        })
        .collect();
    view! {
        {facts_drawn(facts)}
        {cannot
            .into_iter()
            .map(|why| view! { <p class="note doubt">{why}</p> })
            .collect_any()}
    }
}

fn rings_across_words(across: &RingsAcross, units: Units) -> String {
    let span = |span: AngleSpan| {
        let least = show::number(in_degrees(span.least), 0);
        format!("{least} to {}", show::angle(in_degrees(span.greatest)))
    };
    let quartered = match across.quartered {
        Some(band) => {
            let from = show::length(in_mm(band.from), units);
            let to = show::length(in_mm(band.to), units);
            format!("strips from {from} to {to} off mid-width come out quartersawn")
        }
        None => "no strip comes out quartersawn".to_owned(),
    };
    let (lie, turned) = (span(across.lie), span(across.lie.turned_on_edge()));
    format!("{lie} as it lies, {turned} turned on edge; {quartered}")
}

fn best_words(best: &BestBlanks, units: Units) -> String {
    let places = best.places.iter().zip(&best.slabs).map(|(place, slab)| {
        let [from, to] = [place.from, place.to].map(|at| show::length(in_mm(at), units));
        format!(
            "{from} to {to}, {} thick",
            show::length(in_mm(*slab), units)
        )
    });
    let places: Vec<String> = places.collect();
    match places.is_empty() {
        true => "no part fits".to_owned(),
        false => places.join("; "),
    }
}

/// How a number of a sheet was worked out, once it is asked.
fn tell(
    asked: StoredValue<(Sheet, Spec)>,
    number: Number,
) -> impl Fn() -> Option<Derivation> + 'static {
    move || asked.try_with_value(|(sheet, spec)| working(number, sheet, spec))?
}

/// Parts and blanks in words.
pub(crate) fn held_words(held: &PartCount, spec: &Spec) -> String {
    if spec.parts_per_blank > 1 {
        format!(
            "{} laminates = {:.1} blanks",
            held.parts,
            f64::from(held.parts) / f64::from(spec.parts_per_blank)
        )
    } else {
        format!("{} blanks", held.parts)
    }
}

/// The pictures of a plank.
#[component]
pub(crate) fn Pictures(
    /// Its sheet.
    sheet: Sheet,
    /// Its wood.
    wood: Option<Species>,
    /// The spec it was judged by.
    spec: Spec,
    /// The maker's units.
    units: Units,
) -> impl IntoView {
    let plank = &sheet.plank;
    let bent = |bend: Option<Bend>, title: &'static str| {
        let (bend, length) = (bend?, plank.length?);
        let gap = whole_gap(&bend, length).ok()?;
        let line = profile(&bend, gap, length)
            .into_iter()
            .map(|(x, y)| (in_mm(x), in_mm(y)))
            .collect();
        let side = if bend.signed { "" } else { ", side not noted" };
        let said = format!(
            "{} over {}{side}",
            show::length(in_mm(gap).abs(), units),
            show::long_length(in_mm(length), units)
        );
        Some(view! { <Bent title=title line=line said=said /> })
    };
    let width = mean_of_stations(&plank.widths).map(in_mm);
    let thickness = plank.thicknesses.least().map(in_mm);
    let twisted = plank
        .twist
        .zip(width)
        .zip(thickness)
        .map(|((twist, width), thickness)| {
            let hand = match twist.hand {
                Some(Hand::Left) => " left",
                Some(Hand::Right) => " right",
                None => ", hand not noted",
            };
            let rise = in_mm(twist.rise);
            let said = format!("{}{hand}", show::length(rise, units));
            let signed = if twist.hand == Some(Hand::Left) {
                -rise
            } else {
                rise
            };
            view! { <Twisted width=width thickness=thickness rise=signed said=said /> }
        });
    let end = width
        .zip(thickness)
        .zip(plank.rings)
        .map(|((width, thickness), rings)| {
            let drawn = drawn_rings(&rings);
            let said = sheet.rings.map_or_else(String::new, |rings| {
                format!(
                    "{}, {} to the face",
                    rings.class.name(),
                    show::angle(in_degrees(rings.lies))
                )
            });
            let pith = plank.rings.as_ref().map(|rings| pith_words(rings, units));
            let said = said + &pith.unwrap_or_default();
            view! { <EndGrain width=width thickness=thickness rings=drawn said=said /> }
        });
    let grain = sheet.grain.map(|grain| {
        let said = match grain {
            GrainSlope::Combined(slope) => format!("together {}", show::slope(slope.in_tangent())),
            other => format!("at least {}", show::slope(other.at_least().in_tangent())),
        };
        let tangent =
            |slope: Option<stillwood_core::quantity::Slope>| slope.map(|s| s.in_tangent());
        view! {
            <GrainLines face=tangent(plank.grain_face) edge=tangent(plank.grain_edge) said=said />
        }
    });
    let density = sheet.density_at_12.as_ref().map(|density| {
        let value = in_kg_per_m3(density.value);
        let usual = wood.as_ref().and_then(Species::usual_density_at_12);
        let range = usual.map(|usual| (in_kg_per_m3(usual.low), in_kg_per_m3(usual.high)));
        let window = match spec.requirement(Criterion::Density).map(|c| c.form) {
            Some(Form::Within {
                low_limit,
                high_limit,
                ..
            }) => Some((low_limit, high_limit)),
            _ => None,
        };
        let name = wood
            .as_ref()
            .map_or("wood not in the table", Species::name)
            .to_owned();
        let yours = usual
            .filter(|usual| usual.origin == Origin::YourData)
            .map_or("", |_| " (your data)");
        let place = match range {
            Some((low, _)) if value < low => "lighter than usual",
            Some((_, high)) if value > high => "heavier than usual",
            Some(_) => "as usual",
            None => "no usual range known",
        };
        view! {
            <DensityStrip
                value=value within=in_kg_per_m3(density.expanded()) usual=range window=window
                said=format!("Density at 12 %, kg/m³: {place} for {name}{yours}")
            />
        }
    });
    let cuts = sheet.held.as_ref().zip(plank.length).map(|(held, length)| {
        let parts = held.along.iter().map(|cut| (in_mm(cut.from), in_mm(cut.to))).collect();
        let faults = plank
            .defects
            .iter()
            .filter_map(|d| Some((in_mm(d.from?), in_mm(d.to.or(d.from)?))))
            .collect();
        view! {
            <Cuts
                length=in_mm(length) parts=parts faults=faults
                said=format!("{} along × {} across: {}", held.along.len(), held.across.len(), held_words(held, &spec))
            />
        }
    });
    view! {
        <div class="pictures">
            {bent(plank.bow, "Bow, seen from the side, marked face up")}
            {bent(plank.crook, "Crook, seen on the face, marked edge up")}
            {twisted}
            {end}
            {grain}
            {density}
            {cuts}
        </div>
    }
}
