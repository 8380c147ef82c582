//! A picture in at most 256 colours, a third of its size: those that it has most of stay as they are, and each other
//! becomes the nearest of them.

use std::collections::BTreeMap;

use anyhow::{Context, Result, bail};
use png::{BitDepth, ColorType, Compression, Decoder, Encoder, Filter};

type Colour = [u8; 3];

/// How many a picture may have.
const COLOURS: usize = 256;

/// The same picture, smaller.
pub(crate) fn reduced(picture: &[u8]) -> Result<Vec<u8>> {
    let mut reader = Decoder::new(std::io::Cursor::new(picture)).read_info()?;
    let mut pixels = vec![0; reader.output_buffer_size().context("a picture too large")?];
    let info = reader.next_frame(&mut pixels)?;
    if (info.color_type, info.bit_depth) != (ColorType::Rgb, BitDepth::Eight) {
        bail!("a picture of another kind: {:?}", info.color_type);
    }
    let (colours, _) = pixels.as_chunks::<3>();
    let palette = most_used(colours);
    let mut known = BTreeMap::new();
    let indexed: Vec<u8> = colours
        .iter()
        .map(|colour| {
            *known
                .entry(*colour)
                .or_insert_with(|| nearest(&palette, colour))
        })
        .collect();
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, info.width, info.height);
    encoder.set_color(ColorType::Indexed);
    encoder.set_depth(BitDepth::Eight);
    encoder.set_palette(palette.concat());
    encoder.set_compression(Compression::High);
    encoder.set_filter(Filter::NoFilter);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&indexed)?;
    writer.finish()?;
    Ok(bytes)
}

fn most_used(colours: &[Colour]) -> Vec<Colour> {
    let mut counts: BTreeMap<Colour, usize> = BTreeMap::new();
    for colour in colours {
        *counts.entry(*colour).or_default() += 1;
    }
    let mut counts: Vec<(Colour, usize)> = counts.into_iter().collect();
    counts.sort_by_key(|(colour, count)| (std::cmp::Reverse(*count), *colour));
    counts
        .iter()
        .take(COLOURS)
        .map(|(colour, _)| *colour)
        .collect()
}

/// The place of the colour of the palette that differs the least.
fn nearest(palette: &[Colour], colour: &Colour) -> u8 {
    let apart = |other: &Colour| -> u32 {
        let channels = other.iter().zip(colour);
        channels
            .map(|(a, b)| u32::from(a.abs_diff(*b)).pow(2))
            .sum()
    };
    (0..=u8::MAX)
        .zip(palette)
        .min_by_key(|(_, other)| apart(other))
        .map_or(0, |(place, _)| place)
}

#[cfg(test)]
mod tests {
    use super::{BitDepth, ColorType, Colour, Decoder, Encoder, reduced};

    fn picture(colours: &[Colour]) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = Encoder::new(&mut bytes, colours.len() as u32, 1);
        encoder.set_color(ColorType::Rgb);
        encoder.set_depth(BitDepth::Eight);
        let mut writer = encoder.write_header().expect("a head");
        writer.write_image_data(&colours.concat()).expect("pixels");
        writer.finish().expect("an end");
        bytes
    }

    fn colours(picture: &[u8]) -> Vec<Colour> {
        let mut decoder = Decoder::new(std::io::Cursor::new(picture));
        decoder.set_transformations(png::Transformations::EXPAND);
        let mut reader = decoder.read_info().expect("a head");
        let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
        reader.next_frame(&mut pixels).expect("pixels");
        pixels.as_chunks::<3>().0.to_vec()
    }

    #[test]
    fn a_picture_of_few_colours_stays_as_it_is() {
        let few = [[247, 248, 246], [18, 60, 105], [247, 248, 246], [0, 0, 0]];
        let small = reduced(&picture(&few)).expect("a picture");
        assert_eq!(colours(&small), few);
    }

    #[test]
    fn of_many_colours_the_most_used_stay_and_the_others_come_near() {
        // 300 greys and blues once each, and paper often.
        let mut many: Vec<Colour> = (0..150).flat_map(|n| [[n, n, n], [0, n, 255]]).collect();
        many.extend([[247, 248, 246]; 50]);
        let small = colours(&reduced(&picture(&many)).expect("a picture"));
        assert_eq!(small.last(), Some(&[247, 248, 246]));
        let mut kinds = small.clone();
        kinds.sort_unstable();
        kinds.dedup();
        assert_eq!(kinds.len(), 256);
        let apart = |one: &Colour, other: &Colour| -> u32 {
            let channels = one.iter().zip(other);
            channels
                .map(|(a, b)| u32::from(a.abs_diff(*b)).pow(2))
                .sum()
        };
        for (before, after) in many.iter().zip(&small) {
            let least = kinds.iter().map(|kind| apart(before, kind)).min();
            assert_eq!(Some(apart(before, after)), least, "{before:?}");
        }
    }
}
