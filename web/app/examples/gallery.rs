//! Writes every screen in its main states as a page that a browser shows without the app, into the folder that it
//! is told: `cargo xtask gallery` makes pictures of them. A second word is the language, as `de`.
#[path = "../tests/gallery/mod.rs"]
mod gallery;

use gallery::{Stage, every_state};
use std::path::{Path, PathBuf};
use std::{env, fs};
use stillwood_app::Page;
use stillwood_app::desk::Desk;
use stillwood_app::words::Language;

fn html_of(page: &Page) -> String {
    let region = |one: &stillwood_app::page::Region| {
        format!("<{0} id=\"{1}\">{2}</{0}>", one.tag, one.id, one.html)
    };
    let body: String = page.regions.iter().map(region).collect();
    format!(
        "<!doctype html><html lang=\"{}\"><meta charset=\"utf-8\"><meta name=\"viewport\" \
         content=\"width=device-width\"><title>{}</title><link rel=\"stylesheet\" href=\"app.css\">\
         <div id=\"app\" class=\"{}\">{body}</div>",
        page.language.tag(),
        page.title,
        page.layout.class()
    )
}

fn main() {
    let out = PathBuf::from(env::args_os().nth(1).expect("the folder to write into"));
    let tag = env::args().nth(2).unwrap_or_default();
    let languages = Language::ALL.into_iter();
    for language in languages.filter(|one| one.tag() == tag) {
        Desk::new_ones_speak(language);
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    fs::create_dir_all(&out).expect("the folder");
    let css = fs::read_to_string(root.join("static/app.css")).expect("the styles");
    let font = "vendor/atkinson-hyperlegible-next.woff2";
    fs::copy(root.join("static").join(font), out.join("font.woff2")).expect("the typeface");
    fs::write(
        out.join("app.css"),
        css.replace(&format!("{{{{{font}}}}}"), "font.woff2"),
    )
    .expect("the styles");
    let sample = fs::read(root.join("demo-data/two-yards.json")).expect("the sample");
    for (wide, device) in [(false, "phone"), (true, "laptop")] {
        let stage = Stage {
            sample: &sample,
            wide,
        };
        every_state(stage, &mut |name, desk| {
            let page = out.join(format!("{name}.{device}.html"));
            fs::write(page, html_of(&desk.page())).expect("a page");
        });
    }
}
