//! What a first visit loads, file by file, against the budget.

use crate::site::Site;
use crate::squeezed::Squeezed;

/// What a first visit may load in all, compressed: a yard at the edge of the network's reach.
const BUDGET: usize = 450 * 1024;

/// Prints the table. Returns whether the budget holds.
pub(crate) fn report(site: &Site, squeezed: &Squeezed) -> bool {
    let mut rows = Vec::new();
    for (name, bytes) in site.files_kept() {
        rows.push((name.as_str(), bytes.len(), squeezed.length(name, bytes)));
    }
    rows.sort_by_key(|&(_, _, small)| std::cmp::Reverse(small));
    let raw: usize = rows.iter().map(|row| row.1).sum();
    let small: usize = rows.iter().map(|row| row.2).sum();

    println!("{:<44} {:>10} {:>10}", "file", "raw", "brotli");
    for (name, raw, small) in rows {
        println!("{name:<44} {raw:>10} {small:>10}");
    }
    println!("{:<44} {raw:>10} {small:>10}", "a first visit in all");
    let fits = small <= BUDGET;
    if fits {
        println!("{} KB of {} KB", kb(small), kb(BUDGET));
    } else {
        println!(
            "WARNING: OVER BUDGET: a first visit loads {} KB compressed, {} KB are allowed",
            kb(small),
            kb(BUDGET)
        );
    }
    fits
}

fn kb(bytes: usize) -> usize {
    bytes.div_ceil(1024)
}
