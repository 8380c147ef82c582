//! Forms that are left half typed: what a reload and a browser killed in the midst of them leave, of every kind of
//! form, in the very characters; and choices that are there again.

use stillwood_tests::browser::steps::{self, OWN, field};
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::laminates_ready;

/// A form, how to come to it, and what is typed: the first field in the very characters that have to stay.
struct Half {
    /// The screen.
    at: String,
    /// What is touched there to open it.
    touched: &'static [&'static str],
    /// A field, by its selector.
    field: String,
    /// Its stored name.
    name: &'static str,
    /// What is typed.
    typed: &'static str,
    /// What today's screen calls it.
    called: &'static str,
}

impl Half {
    async fn open(&self, page: &Page) {
        page.go_to(&self.at).await;
        for key in self.touched {
            // The keys behind More lie over others of the same name.
            let over = key != &"More" && self.touched.contains(&"More");
            let css = if over {
                "#more-sheet [data-press]"
            } else {
                "[data-press]"
            };
            page.tap_named(css, key).await;
        }
        page.value(&self.field).await;
    }

    async fn is_kept(&self, page: &Page) {
        steps::kept(page, OWN, &format!("{}\":\"{}\"", self.name, self.typed)).await;
    }

    /// Goes on from today's list.
    async fn go_on(&self, page: &Page) {
        page.go_to("#/").await;
        page.tap_with("#body a.item", self.called).await;
        page.holds(&self.field, self.typed).await;
    }
}

#[test]
fn every_kind_of_form_outlives_a_reload_and_a_killed_browser() {
    run(async {
        let profile = Folder::new("next-half-typed");
        let files = Folder::new("files");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        page.open(server.address()).await;
        let (phone, plank, _) = laminates_ready();
        steps::bring_in(&page, &files.put("workshop.json", phone.file())).await;
        let state = phone.state();
        let visit = state
            .visits()
            .next()
            .map(|visit| visit.id)
            .expect("a visit");
        let half = |at: String, touched, name: &'static str, typed, called| Half {
            at,
            touched,
            field: field(name),
            name,
            typed,
            called,
        };
        let mut forms = vec![
            half("#/visit/new".into(), &[], "Yard", "Hopple La", "A visit"),
            half(
                format!("#/new-pile/{visit}"),
                &[],
                "Wood",
                "hard ma",
                "A pile",
            ),
            half(
                format!("#/spec/{visit}"),
                &[],
                "Length, mm",
                "95",
                "Sizes and limits",
            ),
            half(
                format!("#/wood/{plank}"),
                &["More", "Weigh"],
                "Weight",
                "19,",
                "Weigh",
            ),
            half(
                "#/rests".into(),
                &["Log room air"],
                "Humidity of the air",
                "4",
                "Log room air",
            ),
            half(
                "#/plan".into(),
                &[],
                "Good blanks wanted",
                "1",
                "The blanks needed",
            ),
            half(
                "#/gluing-limits".into(),
                &[],
                "Crook left, mm",
                "0,0",
                "Limits for gluing",
            ),
            half(
                "#/own-wood".into(),
                &[],
                "Name of the wood",
                "Bogw",
                "A wood of your own",
            ),
        ];
        forms.push(Half {
            at: format!("#/cut/{plank}"),
            touched: &[],
            field: "[name='marks/1']".into(),
            name: "marks",
            typed: "best",
            called: "Cut",
        });
        forms.push(Half {
            at: format!("#/tally/{visit}"),
            touched: &[],
            field: "[name='total-money']".into(),
            name: "total-money",
            typed: "1300 or",
            called: "bill",
        });
        forms.push(Half {
            at: format!("#/plank/{plank}"),
            touched: &[],
            field: "#new-note".into(),
            name: "A new note",
            typed: "grey str",
            called: "A new note",
        });

        for form in &forms {
            form.open(&page).await;
            page.fill(&form.field, form.typed).await;
            if form.name == "marks" {
                steps::kept(&page, OWN, form.typed).await;
            } else {
                form.is_kept(&page).await;
            }
            page.reload().await;
            page.holds(&form.field, form.typed).await;
        }
        browser.kill().await;

        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        for form in &forms {
            form.go_on(&page).await;
            if !["total-money", "A new note"].contains(&form.name) {
                page.see("#body .notice", "You had begun this").await;
            }
        }
        browser.close().await;
    });
}

#[test]
fn a_form_that_was_recorded_is_half_typed_no_more_after_a_kill() {
    run(async {
        let profile = Folder::new("next-recorded");
        let files = Folder::new("files");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        page.open(server.address()).await;
        let (phone, plank, _) = laminates_ready();
        steps::bring_in(&page, &files.put("workshop.json", phone.file())).await;
        page.go_to(&format!("#/wood/{plank}")).await;
        steps::press(&page, "More").await;
        page.tap_named("#more-sheet [data-press]", "Weigh").await;
        steps::fill(&page, "Scale", "by the door").await;
        steps::fill(&page, "Weight", "19,7 kg").await;
        steps::form_kept(&page, "Weight", "19,7 kg").await;
        steps::press(&page, "Save").await;
        page.see(".toast", "19,7 kg").await;
        browser.kill().await;

        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        assert!(
            !page.text("#app").await.contains("Weigh"),
            "it is not begun any more"
        );
        page.go_to(&format!("#/wood/{plank}")).await;
        page.see("#body", "19,7 kg").await;
        browser.close().await;
    });
}

#[test]
fn what_was_chosen_to_be_shown_is_there_again_after_a_reload() {
    run(async {
        let profile = Folder::new("next-shown");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        page.go_to("#/planks").await;
        steps::titled(&page, "All planks").await;
        page.tap_with("#body summary", "Filters and order").await;
        let search = "#body input[name='search']";
        page.fill(search, "k7-3").await;
        steps::kept(&page, steps::SAMPLE, "k7-3").await;
        let found = steps::marks(&page).await;
        page.reload().await;
        page.holds(search, "k7-3").await;
        assert_eq!(steps::marks(&page).await, found);
        browser.close().await;
    });
}
