//! Writing a file.

use crate::order;
use crate::record::log::Entry;
use crate::record::log::Header;

/// A piece of a file is handed on as soon as it has so many bytes.
const PIECE: usize = 1 << 20;

/// The entries as a file: sorted by (`step`, `id`), one a line, keys sorted, ending in a line end. The
/// same entries under the same header give the same bytes, in whatever order they come; an entry that
/// comes twice is written once.
pub fn write<'a>(header: &Header, entries: impl IntoIterator<Item = &'a Entry>) -> String {
    let ordered = in_order_of_file(entries);
    let mut whole = String::with_capacity(ordered.len() * 512 + 512);
    write_ordered(header, &ordered, |piece| whole.push_str(piece));
    whole
}

/// The same file piece by piece, each of some whole lines: of a long record it never lies in memory as one text.
pub fn write_in_pieces<'a>(
    header: &Header,
    entries: impl IntoIterator<Item = &'a Entry>,
    each: impl FnMut(&str),
) {
    write_ordered(header, &in_order_of_file(entries), each);
}

fn in_order_of_file<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<&'a Entry> {
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

fn write_ordered(header: &Header, ordered: &[&Entry], mut each: impl FnMut(&str)) {
    let mut out = Vec::with_capacity(PIECE.min(ordered.len() * 512) + 4096);
    out.extend_from_slice(b"{\"header\":");
    out.extend_from_slice(&header.to_text(ordered.len()));
    out.extend_from_slice(b",\"entries\":[");
    for (i, entry) in ordered.iter().enumerate() {
        out.extend_from_slice(if i == 0 { b"\n" } else { b",\n" });
        entry.write_line(&mut out);
        if out.len() >= PIECE {
            each(&String::from_utf8_lossy(&out));
            out.clear();
        }
    }
    out.extend_from_slice(b"\n]}\n");
    each(&String::from_utf8_lossy(&out));
}
