//! Whole files whose numbers, days and devices are lies: every line can be read.

use crate::dice::Dice;

/// Numbers at and beyond the ends of what anybody counts.
const NUMBERS: [&str; 10] = [
    "0",
    "4294967295",
    "1099511627776",
    "1099511627777",
    "9007199254740991",
    "9007199254740993",
    "9223372036854775807",
    "9223372036854775808",
    "18446744073709551614",
    "18446744073709551615",
];

/// Days that are in the calendar and in nobody's life.
const DAYS: [&str; 8] = [
    "0001-01-01",
    "1582-10-10",
    "1899-12-31",
    "1900-01-01",
    "1970-01-01",
    "2200-12-31",
    "2201-01-01",
    "9999-12-31",
];

/// A good file with lies in some of its lines; `own` is the device that will read it.
pub(super) fn told(good: &[String], own: &str, dice: &mut Dice) -> Vec<u8> {
    let twin = dice.once_in(3);
    let often = 1 + dice.below(8);
    let lines = good.iter().enumerate().map(|(n, line)| {
        let mut line = line.clone();
        if n == 0 || !line.starts_with('{') {
            return line;
        }
        if twin {
            // A device of the same name that gives the same marks.
            line = line.replace("\"K7", &format!("\"{own}"));
        }
        if dice.once_in(often) {
            let (key, value) = match dice.below(4) {
                0 => ("step", (*dice.pick(&NUMBERS)).to_owned()),
                1 => ("seq", (*dice.pick(&NUMBERS)).to_owned()),
                2 => ("on", format!("\"{}\"", dice.pick(&DAYS))),
                _ => ("count", (*dice.pick(&NUMBERS)).to_owned()),
            };
            line = with(&line, key, &value);
        }
        line
    });
    lines.collect::<Vec<_>>().join("\n").into_bytes()
}

/// The line with another value for the last such key of it, which is the entry's own where it has one.
fn with(line: &str, key: &str, value: &str) -> String {
    let mark = format!("\"{key}\":");
    let Some(from) = line.rfind(&mark).map(|at| at + mark.len()) else {
        return line.to_owned();
    };
    let rest = &line[from..];
    let to = rest.find([',', '}']).unwrap_or(rest.len());
    format!("{}{value}{}", &line[..from], &rest[to..])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_value_is_another() {
        let line = r#"{"by":"K7","step":4,"v":1}"#;
        assert_eq!(with(line, "step", "9"), r#"{"by":"K7","step":9,"v":1}"#);
        assert_eq!(with(line, "v", "2"), r#"{"by":"K7","step":4,"v":2}"#);
        assert_eq!(with(line, "on", "2"), line);
    }
}
