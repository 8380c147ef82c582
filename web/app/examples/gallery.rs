//! Writes screens as pages that a browser can show without the app: for looking at them while they are drawn.
#[path = "gallery/blanks.rs"]
mod blanks;
#[path = "gallery/book.rs"]
mod book;
#[path = "gallery/racks.rs"]
mod racks;
#[path = "gallery/yard.rs"]
mod yard;

use std::fs;
use std::path::Path;
use stillwood_app::desk::Desk;
use stillwood_app::{Page, Route};

fn page_html(page: &Page, scheme: &str, css: &str) -> String {
    let mut body = String::new();
    for region in &page.regions {
        body.push_str(&format!(
            "<{0} id=\"{1}\">{2}</{0}>",
            region.tag, region.id, region.html
        ));
    }
    let scheme = if scheme.is_empty() {
        String::new()
    } else {
        format!(" data-scheme=\"{scheme}\"")
    };
    format!(
        "<!doctype html><html lang=en{scheme}><meta charset=utf-8><meta name=viewport content=\"width=device-width\"><title>{}</title><link rel=stylesheet href=\"{css}\"><div id=app class=\"{}\">{body}</div>",
        page.title,
        page.layout.class()
    )
}

fn main() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let out = root.join("target/gallery");
    fs::create_dir_all(&out).unwrap();
    let css = fs::read_to_string(root.join("web/next/static/app.css")).unwrap();
    let font = root.join("web/next/static/vendor/atkinson-hyperlegible-next.woff2");
    fs::write(
        out.join("app.css"),
        css.replace(
            "{{vendor/atkinson-hyperlegible-next.woff2}}",
            &format!("file://{}", font.canonicalize().unwrap().display()),
        ),
    )
    .unwrap();
    let sample = fs::read(root.join("demo-data/two-yards.json")).unwrap();
    let save = |name: &str, desk: &Desk| {
        for scheme in ["", "shed", "sun"] {
            let suffix = if scheme.is_empty() {
                String::new()
            } else {
                format!("-{scheme}")
            };
            fs::write(
                out.join(format!("{name}{suffix}.html")),
                page_html(&desk.page(), scheme, "app.css"),
            )
            .unwrap();
        }
        println!(
            "{name}: {}",
            desk.page()
                .regions
                .iter()
                .map(|r| r.html.len())
                .sum::<usize>()
        );
    };
    yard::save_all(&sample, &save);
    blanks::show(&sample, &save);
    let mut desk = Desk::with_file(&sample, "2026-11-20").unwrap();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    desk.press("twist");
    save("sort", &desk);
    desk.press("Maybe");
    save("chalk", &desk);
    desk.press("Chalked, next");
    desk.press("Measure it now");
    save("measure-empty", &desk);
    for text in ["2620", "205", "207", "204", "52", "19.7"] {
        desk.keys(text);
        desk.press("Next");
    }
    save("measure-eye", &desk);
    desk.keys("3");
    desk.press("Next");
    desk.press("about 3");
    save("measure", &desk);
    desk.press("Next");
    desk.press("Next");
    desk.keys("12");
    desk.press("Next");
    desk.keys("10");
    desk.press("Next");
    desk.keys("62");
    save("measure-rings", &desk);
    desk.press("To the verdict");
    save("verdict", &desk);
    println!("{}", desk.reads());
    desk.press("slope of grain");
    save("worked-out", &desk);
    racks::save_all(&sample, &save);
    book::screens(&sample, &save);
}
