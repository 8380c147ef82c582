//! The published files as they go over a network: each with `.br` and `.gz` beside it, where that is smaller. A host
//! that can gives them in the place of the file itself; the browser unpacks them before any hash is checked.

use std::collections::BTreeMap;
use std::io::Write;

use anyhow::{Context, Result};

use crate::site::Site;

/// The ways of packing, each with its ending and its name in HTTP, the smaller one first.
pub(crate) const PACKINGS: [(&str, &str); 2] = [(".br", "br"), (".gz", "gzip")];

/// Packed already: another packing only costs time.
const PACKED_BY_THEMSELVES: [&str; 2] = [".png", ".woff2"];

/// The packed files, by name.
pub(crate) struct Squeezed(BTreeMap<String, Vec<u8>>);

impl Squeezed {
    /// Packs every file of a site.
    pub(crate) fn of(site: &Site) -> Result<Self> {
        let mut packed = BTreeMap::new();
        for (name, bytes) in site.files() {
            if PACKED_BY_THEMSELVES
                .iter()
                .any(|ending| name.ends_with(ending))
            {
                continue;
            }
            for (ending, _) in PACKINGS {
                let small = match ending {
                    ".br" => brotli(bytes)?,
                    _ => gzip(bytes)?,
                };
                if small.len() < bytes.len() {
                    packed.insert(format!("{name}{ending}"), small);
                }
            }
        }
        Ok(Self(packed))
    }

    /// The packed files, by name.
    pub(crate) fn files(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        self.0.iter()
    }

    /// Whether one of that name is among them.
    pub(crate) fn holds(&self, name: &str) -> bool {
        self.0.contains_key(name)
    }

    /// How many bytes of a file go over the network at the best.
    pub(crate) fn length(&self, name: &str, bytes: &[u8]) -> usize {
        let packed = self.0.get(&format!("{name}{}", PACKINGS[0].0));
        packed.map_or(bytes.len(), Vec::len)
    }
}

fn brotli(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut writer = brotli::CompressorWriter::new(Vec::new(), 64 * 1024, 11, 24);
    writer.write_all(bytes).context("brotli")?;
    Ok(writer.into_inner())
}

/// Without a name and a time in its header: the same bytes make the same file.
fn gzip(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut writer = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    writer.write_all(bytes).context("gzip")?;
    writer.finish().context("gzip")
}

#[cfg(test)]
mod tests {
    use super::{Squeezed, brotli, gzip};
    use crate::site::Site;
    use std::io::Read;

    #[test]
    fn what_is_packed_is_the_file_itself() {
        let text = "the same words again and again, ".repeat(50);
        let mut out = String::new();
        let packed = brotli(text.as_bytes()).expect("packed");
        let mut reader = brotli::Decompressor::new(packed.as_slice(), 4096);
        reader.read_to_string(&mut out).expect("unpacked");
        assert_eq!(out, text);
        out.clear();
        let packed = gzip(text.as_bytes()).expect("packed");
        assert_eq!(packed, gzip(text.as_bytes()).expect("packed"));
        let mut reader = flate2::read::GzDecoder::new(packed.as_slice());
        reader.read_to_string(&mut out).expect("unpacked");
        assert_eq!(out, text);
    }

    #[test]
    fn only_what_gets_smaller_is_laid_beside() {
        let mut site = Site::default();
        let long = "the same words again and again, ".repeat(50);
        for (name, text) in [("a.txt", "a"), ("b.txt", &long), ("c.png", &long)] {
            site.add_plain(name, text.as_bytes().to_vec())
                .expect("a plain name");
        }
        let packed = Squeezed::of(&site).expect("packed");
        let names: Vec<&String> = packed.files().map(|(name, _)| name).collect();
        assert_eq!(names, ["b.txt.br", "b.txt.gz"]);
        assert_eq!(packed.length("a.txt", b"a"), 1);
        assert!(packed.length("b.txt", long.as_bytes()) < 60);
    }
}
