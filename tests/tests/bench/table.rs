//! The table of figures: what was measured, beside its target.

/// Rows as they are printed; a miss is printed, never failed.
#[derive(Default)]
pub(super) struct Table(Vec<[String; 4]>);

impl Table {
    pub(super) fn row(
        &mut self,
        what: impl Into<String>,
        found: f64,
        unit: &str,
        target: Option<f64>,
    ) {
        let places = usize::from(found < 100.0);
        let shown = format!("{found:.places$} {unit}");
        let (target, verdict) = match target {
            Some(most) => {
                let verdict = if found <= most { "met" } else { "MISSED" };
                (format!("≤ {most:.0} {unit}"), verdict)
            }
            None => ("–".to_owned(), ""),
        };
        let row = [what.into(), shown, target, verdict.to_owned()];
        println!("{:<76} {:>12} {:>12} {}", row[0], row[1], row[2], row[3]);
        self.0.push(row);
    }

    pub(super) fn missed(&self) -> usize {
        self.0.iter().filter(|row| row[3] == "MISSED").count()
    }
}

pub(super) fn sorted(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values
}

pub(super) fn median(values: Vec<f64>) -> f64 {
    let values = sorted(values);
    values[values.len() / 2]
}

pub(super) fn greatest(values: &[f64]) -> f64 {
    values.iter().copied().fold(0.0, f64::max)
}

/// The value that 95 of 100 do not exceed.
pub(super) fn p95(values: Vec<f64>) -> f64 {
    let values = sorted(values);
    values[(values.len() * 95).div_ceil(100) - 1]
}
