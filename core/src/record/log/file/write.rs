//! Writing a file.

use crate::order;
use crate::record::log::Entry;
use crate::record::log::Header;

/// The entries as a file: sorted by (`step`, `id`), one a line, keys sorted, ending in a line end. The
/// same entries under the same header give the same bytes, in whatever order they come; an entry that
/// comes twice is written once.
pub fn write<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    let ordered = in_order_of_file(entries);
    let mut out = Vec::with_capacity(ordered.len() * 512 + 512);
    begin(&mut out, header, ordered.len());
    for (at, entry) in ordered.iter().enumerate() {
        line(&mut out, at, entry);
    }
    end(&mut out);
    text(&out)
}

/// The entries as they stand in a file, each once.
pub(super) fn in_order_of_file<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<&'a Entry> {
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
    ordered
}

/// What stands before the entries, of which there are so many.
pub(super) fn begin(out: &mut Vec<u8>, header: &Header, entries: usize) {
    out.extend_from_slice(b"{\"header\":");
    out.extend_from_slice(&header.to_text(entries));
    out.extend_from_slice(b",\"entries\":[");
}

/// An entry, by its place from 0.
pub(super) fn line(out: &mut Vec<u8>, at: usize, entry: &Entry) {
    out.extend_from_slice(if at == 0 { b"\n" } else { b",\n" });
    entry.write_line(out);
}

/// What stands behind them.
pub(super) fn end(out: &mut Vec<u8>) {
    out.extend_from_slice(b"\n]}\n");
}

/// What was written, as text.
pub(super) fn text(out: &[u8]) -> String {
    String::from_utf8_lossy(out).into_owned()
}
