//! From the phone to the laptop and back: files saved and brought in, twice and damaged, the table of
//! planks, and what a spreadsheet gets.

use serde_json::json;
use stillwood_core::plank::Field;
use stillwood_core::record::sealed;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, downloaded, run};
use stillwood_tests::yard::Phone;

/// Saves the whole record as a file; its text.
async fn export(page: &Page) -> String {
    export_by(page, "#export-all").await
}

async fn export_by(page: &Page, button: &str) -> String {
    let loads = Folder::new("loads");
    page.download_into(loads.path()).await;
    page.go_to("#/carry").await;
    page.tap(button).await;
    let (_, bytes) = downloaded(loads.path()).await;
    String::from_utf8(bytes).expect("text")
}

/// The entries of a file, without its first line, which says when it was written.
fn entries(file: &str) -> &str {
    file.split_once("\"entries\":").expect("a file of ours").1
}

/// Opens a file on the screen of files; what is said of it.
async fn look_at(page: &Page, folder: &Folder, name: &str, bytes: impl AsRef<[u8]>) -> String {
    let path = folder.put(name, bytes);
    page.go_to("#/carry").await;
    page.choose_file("#import-file", &path).await;
    page.see(".incoming", name).await
}

/// A phone that recorded planks of these lengths and weights.
fn recorded(by: &str, planks: &[(&str, &str, &str)]) -> String {
    let mut phone = Phone::new(by);
    let (_, pile) = phone.pile();
    for (mark, length, weight) in planks {
        let texts = [
            (Field::Length, *length),
            (Field::WidthNear, "205"),
            (Field::ThicknessNear, "52"),
            (Field::WeightWhole, *weight),
        ];
        phone.plank(pile, mark, &texts);
    }
    phone.file()
}

#[test]
fn the_record_goes_to_the_laptop_and_comes_back_unaltered() {
    run(async {
        let (pocket, desk, files) = (
            Folder::new("pocket"),
            Folder::new("desk"),
            Folder::new("files"),
        );
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.set_up(server.address()).await;
        page.begin_plank().await;
        for length in ["2620", "2480", "2300"] {
            page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
                .await;
            page.quick_plank(length).await;
        }
        let file = export(&page).await;
        // A file among the downloads is not elsewhere.
        page.see("#only-here", "3 planks stand on this phone only")
            .await;
        page.see("#last-saved", "this device's downloads is not elsewhere")
            .await;
        phone.close().await;

        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let desktop = "return !matchMedia('(pointer: coarse)').matches && innerWidth >= 1200";
        assert_eq!(page.js(desktop, vec![]).await, true);
        look_at(&page, &files, "phone.json", &file).await;
        page.figure("Planks that are new here", "3").await;
        page.tap("#merge").await;
        let said = page.see("#merged", "phone.json:").await;
        assert!(said.contains("3 planks"), "{said}");
        // The same again brings nothing.
        look_at(&page, &files, "again.json", &file).await;
        page.figure("Entries that are new here", "0").await;
        page.see("#merge", "Nothing new to add").await;
        page.tap("#leave-file").await;
        let back = export(&page).await;
        assert_eq!(entries(&back), entries(&file), "byte for byte");

        // The table sorts, filters, and opens a sheet beside itself.
        page.go_to("#/planks").await;
        page.see("#planks tbody", "2620").await;
        page.tap_with("#planks thead button", "Mark").await;
        let rising = page.texts("#planks tbody .mark").await;
        page.tap_with("#planks thead button", "Mark").await;
        let mut falling = page.texts("#planks tbody .mark").await;
        assert_ne!(rising, falling);
        falling.reverse();
        assert_eq!(rising, falling);
        page.fill("#search", &rising[1]).await;
        page.see("main", "1 of 3 planks").await;
        assert_eq!(page.texts("#planks tbody .mark").await, [rising[1].clone()]);
        page.tap("#planks tbody .mark").await;
        page.see("#beside #sheet-mark", &rising[1]).await;
        page.see("#plank-sheet #decision", "take").await;
        page.tap("#close-sheet").await;
        page.gone("#beside").await;
        page.tap("#clear-filters").await;
        // All of them by other limits, and back.
        let judged_by = |name: &'static str| {
            let script = "const select = document.querySelector('#judged-by');\
                const option = [...select.options].find((o) => o.text.startsWith(arguments[0]));\
                select.value = option.value;\
                select.dispatchEvent(new Event('change', { bubbles: true }));";
            page.js(script, vec![json!(name)])
        };
        page.tap("details summary").await;
        judged_by("Bodies").await;
        let count = page.see("#plank-count", "judged by Bodies").await;
        assert!(count.starts_with("3 planks"), "{count}");
        // The sheet beside it is judged by the same; what is decided there goes by its own visit's.
        judged_by("each").await;
        page.tap("#planks tbody .mark").await;
        let pictures = async || page.texts("#beside figcaption").await;
        let (own, score) = (pictures().await, page.text("#beside .score").await);
        page.gone("#judged-under").await;
        judged_by("Bodies").await;
        page.see("#judged-under", "sizes and limits of Bodies")
            .await;
        page.see("#beside", "Verdict under “Bodies").await;
        assert_ne!(pictures().await, own, "other parts are cut out of it");
        let shown = page.text("#beside .score").await;
        let in_table = page.text("#planks .open [data-label='Score']").await;
        assert_eq!(in_table, shown);
        page.tap("#aside-now").await;
        page.see("#history", &format!("score shown {score}")).await;
        judged_by("each").await;
        page.gone("#judged-under").await;
        assert_eq!(pictures().await, own);
        page.see("#plank-count", "3 planks").await;
        page.reads("#plank-count", "3 planks").await;
        page.reload().await;
        page.see("#planks tbody", &rising[0]).await;
        laptop.close().await;
    });
}

#[test]
fn planks_of_two_phones_are_offered_as_pairs_and_never_joined_unasked() {
    run(async {
        let (desk, files) = (Folder::new("desk"), Folder::new("files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let k7 = [
            ("K7-2", "2620", "19.7"),
            ("K7-3", "2480", "18"),
            ("K7-4", "2100", "16"),
        ];
        let m4 = [
            ("M4-2", "2620", "19.8"),
            ("M4-3", "2481", "18"),
            ("M4-4", "3000", "22"),
        ];
        for (name, file) in [
            ("k7.json", recorded("K7", &k7)),
            ("m4.json", recorded("M4", &m4)),
        ] {
            look_at(&page, &files, name, &file).await;
            page.tap("#merge").await;
            page.see("#merged", &format!("{name}:")).await;
        }
        page.see("#pairs", "2 pairs are so alike").await;
        page.go_to("#/planks").await;
        page.see("main", "6 planks").await;

        page.go_to("#/carry").await;
        page.tap("#same-1").await;
        page.see("#pairs", "1 pair is so alike").await;
        page.tap("#different-1").await;
        page.gone("#pairs").await;
        page.go_to("#/planks").await;
        page.see("main", "5 planks").await;
        // Once told, never offered again, also when the files come once more.
        look_at(&page, &files, "once-more.json", recorded("M4", &m4)).await;
        page.see("#merge", "Nothing new to add").await;
        page.tap("#leave-file").await;
        page.reload().await;
        page.see("#only-here", "2 entries stand on this laptop only")
            .await;
        page.gone("#pairs").await;
        laptop.close().await;
    });
}

#[test]
fn a_damaged_or_foreign_file_is_named_and_alters_nothing() {
    run(async {
        let (desk, files) = (Folder::new("desk"), Folder::new("files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let own = recorded("K7", &[("K7-2", "2620", "19.7")]);
        look_at(&page, &files, "own.json", &own).await;
        page.tap("#merge").await;
        page.see("#merged", "own.json:").await;
        let before = export(&page).await;

        let other = recorded("M4", &[("M4-2", "3010", "22"), ("M4-3", "2222", "17")]);
        let photo: Vec<u8> = (0..50_000u32)
            .map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8)
            .collect();
        let photo = [b"\xff\xd8\xff\xe0".to_vec(), photo].concat();
        // Not ours at all: one sentence, nothing to add.
        for (name, bytes, says) in [
            (
                "foreign.json",
                b"{\"planks\": [1, 2, 3]}".to_vec(),
                "can't be brought in",
            ),
            ("photo.jpg", photo, "can't be brought in"),
            ("empty.json", Vec::new(), "can't be brought in"),
        ] {
            let said = look_at(&page, &files, name, bytes).await;
            assert!(said.contains(says), "{name}: {said}");
            assert!(said.contains("Nothing has changed"), "{name}: {said}");
            page.press("Put it away").await;
            page.gone(".incoming").await;
        }
        // Ours, but damaged: what is whole could be added, what is not is told with its place.
        let cut = other.as_bytes()[..other.len() * 6 / 10].to_vec();
        let huge = other.replacen("\"value\":3010", "\"value\":1e999", 1);
        assert_ne!(huge, other);
        let script = "<img src=x onerror=window.__run=1><script>window.__run=1</script>";
        let hostile = other.replace("M4-2", script);
        assert_ne!(hostile, other);
        for (name, bytes) in [("cut.json", cut), ("huge.json", huge.into_bytes())] {
            look_at(&page, &files, name, bytes).await;
            page.figure("Problems", "1").await;
            let told = page.text(".incoming .problems").await;
            assert!(told.len() > 10, "{name}: {told}");
            page.tap("#leave-file").await;
            page.gone(".incoming").await;
        }
        assert_eq!(
            entries(&export(&page).await),
            entries(&before),
            "nothing is altered"
        );

        // A name with a script in it is text, wherever it is shown: of the file, in what is said of a mark that
        // is too long, and of a plank. The other plank of the file comes in.
        let name = "a<img src=x onerror=window.__run=1>.json";
        look_at(&page, &files, name, hostile).await;
        page.figure("Problems", "1").await;
        page.see(".incoming .problems", "<img src=x").await;
        page.tap("#merge").await;
        page.see("#merged", name).await;
        page.go_to("#/planks").await;
        page.see("#planks tbody", "2222").await;
        let script = "<img src=x onerror=window.__run=1>";
        let marked = resealed(&other.replace("M4-2", script));
        look_at(&page, &files, "marked.json", marked).await;
        page.figure("Entries that are new here", "1").await;
        page.tap("#merge").await;
        page.see("#merged", "marked.json:").await;
        page.go_to("#/planks").await;
        page.see("#planks tbody", script).await;
        let run = page.js("return window.__run ?? null", vec![]).await;
        assert!(run.is_null(), "a script of the file was run");
        assert_eq!(
            page.js(
                "return document.querySelectorAll('main img').length",
                vec![]
            )
            .await,
            0
        );
        laptop.close().await;
    });
}

/// The file with checksums that fit what was changed in its lines.
fn resealed(file: &str) -> String {
    let line = |line: &str| {
        let entry = line.trim_end_matches(',');
        let comma = &line[entry.len()..];
        match entry
            .starts_with("{\"about\"")
            .then(|| sealed(entry))
            .flatten()
        {
            Some(entry) => format!("{entry}{comma}\n"),
            None => format!("{line}\n"),
        }
    };
    file.lines().map(line).collect()
}

#[test]
fn a_spreadsheet_gets_no_live_formula() {
    run(async {
        let (desk, files) = (Folder::new("desk"), Folder::new("files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let file = recorded("K7", &[("K7-2", "2620", "19.7")])
            .replace(
                "\"yard\":\"North\"",
                "\"yard\":\"=HYPERLINK(\\\"http://x\\\")\"",
            )
            .replace("hard maple", "@SUM(A1)");
        let file = resealed(&file);
        look_at(&page, &files, "formula.json", &file).await;
        page.tap("#merge").await;
        page.see("#merged", "formula.json:").await;
        let table = export_by(&page, "#export-csv").await;
        assert!(
            table.contains("'=HYPERLINK") && table.contains("'@SUM"),
            "{table}"
        );
        let mut reader = csv::ReaderBuilder::new()
            .flexible(true)
            .from_reader(table.as_bytes());
        let mut rows = 0;
        for row in reader.records() {
            rows += 1;
            for cell in &row.expect("a row") {
                let starts = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
                let number = cell.replace(',', ".").parse::<f64>().is_ok();
                assert!(!starts || number, "a live cell: {cell}");
            }
        }
        assert_eq!(rows, 1);
        laptop.close().await;
    });
}
