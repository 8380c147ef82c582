//! The species table that is compiled in, and its reading. A line it can't read is left out, never half
//! read; a test keeps the file free of such lines.

use super::caution::{Dust, DustCaution, TradeControl, TradeStatus};
use super::numbers::{Given, Numbers, Spread};
use super::source::{NumberOrigin, origin};
use super::species::Species;
use crate::quantity::float_of;
use std::sync::OnceLock;

/// Every wood of the table, in its order.
pub fn species() -> &'static [Species] {
    static SPECIES: OnceLock<Vec<Species>> = OnceLock::new();
    SPECIES.get_or_init(read)
}

/// The wood of the table with this id.
pub fn find(id: &str) -> Option<&'static Species> {
    species().iter().find(|wood| wood.id == id)
}

/// The whole file, in its order.
fn read() -> Vec<Species> {
    include_str!("species.csv")
        .lines()
        .skip(1)
        .filter_map(line)
        .collect()
}

/// One line: seventeen fields, the source letters among them, no quoting.
fn line(line: &str) -> Option<Species> {
    let fields: Vec<&str> = line.split(',').collect();
    let [
        id,
        names,
        scientific,
        gb,
        g12,
        rho,
        spread,
        sr,
        st,
        sv,
        cr,
        ct,
        moe,
        keys,
        dust,
        trade,
        colour,
    ] = fields[..]
    else {
        return None;
    };
    let keys: Vec<char> = keys.chars().collect();
    let [
        k_gb,
        k_g12,
        k_rho,
        k_spread,
        k_sr,
        k_st,
        k_sv,
        k_cr,
        k_ct,
        k_moe,
    ] = keys[..]
    else {
        return None;
    };
    Some(Species {
        id: id.to_owned(),
        names: names.split('|').map(str::to_owned).collect(),
        scientific: scientific.to_owned(),
        numbers: Numbers {
            basic_gravity: given(gb, k_gb)?,
            gravity_at_12: given(g12, k_g12)?,
            density_at_12: given(rho, k_rho)?,
            spread: spread_of(spread, k_spread)?,
            radial: given(sr, k_sr)?,
            tangential: given(st, k_st)?,
            volumetric: given(sv, k_sv)?,
            radial_coefficient: given(cr, k_cr)?,
            tangential_coefficient: given(ct, k_ct)?,
            stiffness_mpa: given(moe, k_moe)?,
        },
        dust: dust_of(dust)?,
        trade: trade_of(trade)?,
        colour: colour_of(colour)?,
    })
}

/// A number and its letter, or an empty field and '-'; `None` outside is a fault of the file.
fn given(text: &str, key: char) -> Option<Given> {
    match (text, key) {
        ("", '-') => Some(None),
        _ => Some(Some((float_of(text)?, origin(key)?))),
    }
}

/// "low-high" in kg/m³, or a standard deviation alone.
fn spread_of(text: &str, key: char) -> Option<Option<(Spread, NumberOrigin)>> {
    let spread = match (text, key) {
        ("", '-') => return Some(None),
        (text, _) => match text.split_once('-') {
            Some((low, high)) => Spread::Range {
                low: float_of(low)?,
                high: float_of(high)?,
            },
            None => Spread::Deviation(float_of(text)?),
        },
    };
    Some(Some((spread, origin(key)?)))
}

/// `#rrggbb`: the app's own, chosen by eye.
fn colour_of(text: &str) -> Option<String> {
    let digits = text.strip_prefix('#')?;
    let is_one = digits.len() == 6 && digits.chars().all(|c| c.is_ascii_hexdigit());
    is_one.then(|| text.to_owned())
}

fn dust_of(text: &str) -> Option<DustCaution> {
    let mut letters = text.chars();
    let dust = match letters.next()? {
        'g' => Dust::General,
        'i' => Dust::Irritant,
        's' => Dust::Sensitiser,
        _ => return None,
    };
    Some(DustCaution {
        dust,
        origin: origin(letters.next()?)?,
    })
}

/// "appendix;as of;covers;letter".
fn trade_of(text: &str) -> Option<TradeStatus> {
    if text.is_empty() {
        return Some(TradeStatus::NoneKnown);
    }
    let parts: Vec<&str> = text.split(';').collect();
    let [appendix, as_of, covers, key] = parts[..] else {
        return None;
    };
    Some(TradeStatus::Listed(TradeControl {
        appendix: appendix.to_owned(),
        as_of: as_of.to_owned(),
        covers: covers.to_owned(),
        origin: origin(key.chars().next()?)?,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_line_is_understood() {
        let text = include_str!("species.csv");
        for raw in text.lines().skip(1) {
            assert!(line(raw).is_some(), "not understood: {raw}");
        }
        assert!(text.len() < 15_000, "the table is part of the download");
        assert!(read().len() >= 60);
    }

    #[test]
    fn a_spoilt_line_is_left_out_whole() {
        let good = include_str!("species.csv").lines().nth(1).unwrap();
        for spoilt in [
            good.replace(".56,", "x,"),
            good.replace("KE--", "ZE--"),
            good.replace("iM", "qM"),
            good.replace("iM", "i"),
            format!("{good},extra"),
            format!("{good}II;2022"),
        ] {
            assert!(line(&spoilt).is_none(), "{spoilt}");
        }
    }

    #[test]
    fn ids_are_unique_and_every_wood_is_named() {
        let woods = read();
        let ids: BTreeSet<&str> = woods.iter().map(Species::id).collect();
        assert_eq!(ids.len(), woods.len());
        for wood in &woods {
            assert!(wood.names().iter().all(|n| !n.is_empty()), "{}", wood.id());
            assert!(wood.scientific_name().contains(' '), "{}", wood.id());
        }
    }
}
