//! A code that a camera reads: the whole of a mark as text.

use maud::{Markup, html};
use qrcodegen::{QrCode, QrCodeEcc};

/// The code of a text; nothing for one that fits in none.
pub fn code(text: &str) -> Markup {
    let Ok(code) = QrCode::encode_text(text, QrCodeEcc::Medium) else {
        return html! {};
    };
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        for x in 0..size {
            if code.get_module(x, y) {
                path.push_str(&format!("M{x} {y}h1v1h-1z"));
            }
        }
    }
    html! {
        svg.code viewBox={ "-4 -4 " (size + 8) " " (size + 8) } role="img" aria-label=(text) {
            rect x="-4" y="-4" width=(size + 8) height=(size + 8) fill="#ffffff" {}
            path d=(path) fill="#000000" {}
        }
    }
}
