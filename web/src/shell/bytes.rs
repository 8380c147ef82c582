//! Bytes that the browser holds outside of this module's memory: taken over, compared, given back at once.
//!
//! A browser frees what nobody uses only when it next looks for it. Until then the pages of a long file, written and
//! read back, would heap up beside the record.

use js_sys::{ArrayBuffer, Reflect, Uint8Array};

/// So many bytes are compared at a time: what was read back needs no second copy of a page.
const COMPARED_AT_A_TIME: usize = 1 << 14;

/// Gives the memory back at once; nobody else may use these bytes any more. An older browser knows no way to, and
/// does it in its own time.
pub(crate) fn give_back(bytes: &Uint8Array) {
    let buffer: ArrayBuffer = bytes.buffer();
    if Reflect::has(&buffer, &"transfer".into()) == Ok(true) {
        // nothing lost: whoever gives bytes back has copied or compared them
        let _ = buffer.transfer_with_length(0);
    }
}

/// A copy in this module's memory; the browser's own is given back.
pub(crate) fn taken_over(bytes: &Uint8Array) -> Vec<u8> {
    let copy = bytes.to_vec();
    give_back(bytes);
    copy
}

/// Whether the browser's bytes are just these.
pub(crate) fn are_the_same(there: &Uint8Array, here: &[u8]) -> bool {
    if there.length() as usize != here.len() {
        return false;
    }
    let mut some = [0; COMPARED_AT_A_TIME];
    let mut from = 0;
    here.chunks(COMPARED_AT_A_TIME).all(|chunk| {
        let (some, to) = (&mut some[..chunk.len()], from + chunk.len() as u32);
        there.subarray(from, to).copy_to(some);
        from = to;
        some == chunk
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    fn many() -> Vec<u8> {
        (0..3 * COMPARED_AT_A_TIME + 7)
            .map(|n| (n % 251) as u8)
            .collect()
    }

    #[wasm_bindgen_test]
    fn every_byte_is_compared_and_so_is_the_length() {
        let here = many();
        let there = Uint8Array::from(&here[..]);
        assert!(are_the_same(&there, &here));
        assert!(are_the_same(&Uint8Array::new_with_length(0), &[]));
        assert!(!are_the_same(&there, &here[1..]));
        assert!(!are_the_same(&there, &here[..here.len() - 1]));
        assert!(!are_the_same(&there, &[]));
        let at_edges = [0, COMPARED_AT_A_TIME - 1, COMPARED_AT_A_TIME];
        for at in at_edges.into_iter().chain([here.len() - 1]) {
            let mut other = here.clone();
            other[at] ^= 1;
            assert!(!are_the_same(&there, &other), "at {at}");
        }
    }

    #[wasm_bindgen_test]
    fn what_is_taken_over_is_whole_and_the_browser_keeps_nothing_of_it() {
        let here = many();
        let there = Uint8Array::from(&here[..]);
        assert_eq!(taken_over(&there), here);
        assert_eq!(there.length(), 0);
        // Twice does no harm.
        give_back(&there);
    }
}
