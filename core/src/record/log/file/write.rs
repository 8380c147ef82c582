//! Writing a file.

use crate::order;
use crate::record::log::Entry;
use crate::record::log::Header;

/// The entries as a file: sorted by (`step`, `id`), one a line, keys sorted, ending in a line end. The
/// same entries under the same header give the same bytes, in whatever order they come; an entry that
/// comes twice is written once.
pub fn write<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    let mut ordered: Vec<&Entry> = entries.into_iter().collect();
    order::sort_by(&mut ordered, |a, b| {
        a.order().cmp(&b.order()).then_with(|| {
            if a == b {
                std::cmp::Ordering::Equal
            } else {
                a.to_line().cmp(&b.to_line())
            }
        })
    });
    ordered.dedup();
    let mut out = Vec::with_capacity(ordered.len() * 512 + 512);
    out.extend_from_slice(b"{\"header\":");
    out.extend_from_slice(&header.to_text(ordered.len()));
    out.extend_from_slice(b",\"entries\":[");
    for (i, entry) in ordered.iter().enumerate() {
        out.extend_from_slice(if i == 0 { b"\n" } else { b",\n" });
        entry.write_line(&mut out);
    }
    out.extend_from_slice(b"\n]}\n");
    String::from_utf8(out).unwrap_or_else(|e| String::from_utf8_lossy(e.as_bytes()).into_owned())
}
