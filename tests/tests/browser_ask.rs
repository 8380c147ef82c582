//! Quick questions without a plank, and a wood that is in no list: on a phone, by touch.

use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, Spec, run};

async fn phone(profile: &Folder) -> (Server, Browser, Page) {
    let server = Server::start();
    let browser = Browser::start(Device::Phone, profile).await;
    let page = browser.page();
    (server, browser, page)
}

/// Opens a question; the one before closes.
async fn ask(page: &Page, question: &str) {
    page.press(question).await;
    page.see(".asked button[aria-expanded=true]", question)
        .await;
    let open = page.texts(".asked button[aria-expanded=true]").await;
    assert_eq!(open.len(), 1, "{open:?}");
}

#[test]
fn quick_questions_have_an_answer_at_every_key() {
    run(async {
        let profile = Folder::new("ask");
        let (server, browser, page) = phone(&profile).await;
        page.open(server.address()).await;
        page.press("Quick questions").await;

        ask(&page, "What moisture does wood settle at?").await;
        page.see("#answer", "Still to type: Relative humidity.")
            .await;
        page.fill("#in-relative-humidity", "45").await;
        let settles = page.figure("Wood settles at", "8.5 %").await;
        assert_eq!(settles, "8.5 %");
        let basis = page.text("#answer .basis").await;
        assert!(
            basis.contains("0 to 98 %") && basis.contains("equation 4-5"),
            "{basis}"
        );
        page.fill("#in-relative-humidity", "105").await;
        page.see("#answer .note.bad", "105 % relative humidity")
            .await;
        page.press("air that keeps it").await;
        page.fill("#in-moisture-to-keep", "8,5 %").await;
        page.figure("Kept by a humidity of", "45").await;

        ask(&page, "How much wood is it, and what does it cost?").await;
        page.fill("#in-length", "8 ft").await;
        page.see("#in-length-notes .echo", "2438.4 mm = 96 in")
            .await;
        page.fill("#in-width", "8 in").await;
        page.fill("#in-thickness", "8/4").await;
        page.fill("#in-price", "14,50").await;
        page.figure("Board feet", "10.67 bf").await;
        page.figure("Price", "154.67").await;
        page.press("per piece").await;
        page.figure("Price", "14.50").await;
        page.fill("#in-width", "8 stone").await;
        page.see("#in-width-notes .error", "not a unit that fits here")
            .await;
        page.see("#answer", "Still to type: Width.").await;

        ask(&page, "What does a bow do to a blank?").await;
        page.fill("#in-gap-under-the-string", "9").await;
        page.fill("#in-over-a-length-of", "2620").await;
        page.fill("#in-length-of-the-blank", "950").await;
        page.fill("#in-thickness-of-the-plank", "52").await;
        page.figure("Gap over the blank", "1.2 mm").await;
        page.figure("Straight slab left", "48.8 mm").await;

        // What was typed for another question is still there.
        ask(&page, "How much wood is it, and what does it cost?").await;
        page.holds("#in-length", "8 ft").await;
        browser.close().await;
    });
}

#[test]
fn a_wood_in_no_list_is_named_later_and_keeps_its_numbers() {
    run(async {
        let profile = Folder::new("own-wood");
        let (server, browser, page) = phone(&profile).await;
        page.open(server.address()).await;
        page.new_visit(HOPPLE).await;
        page.set_part(Spec::PART).await;
        // Recorded by its name alone.
        page.new_pile(Pile {
            wood: "river cherry",
            chosen: None,
            ..Pile::MAPLE
        })
        .await;
        page.begin_plank().await;
        page.quick_plank("2620").await;
        page.home().await;
        page.tap("#visits a").await;
        page.tap("#planks a[href*='plank/']").await;
        page.see("#trade", "not known here").await;
        let sheet = page.js("return location.hash", vec![]).await;
        let sheet = sheet.as_str().unwrap_or_default().to_owned();

        // In another pile's form, where a wood is chosen. What is typed there stays.
        page.home().await;
        page.tap("#visits a").await;
        page.press("New pile").await;
        page.fill("#in-price", "12").await;
        page.fill("#in-wood", "river cherry").await;
        page.tap("#own-wood-here").await;
        let name = "#in-name-of-the-wood";
        page.holds(name, "river cherry").await;
        page.fill("#in-radial-shrinkage", "75").await;
        page.see(
            "#in-radial-shrinkage-notes .error",
            "between 0.1 % and 20 %",
        )
        .await;
        page.tap("#save-wood").await;
        page.see("#wood-fault", "Not saved: Radial shrinkage").await;
        page.fill("#in-radial-shrinkage", "4,0").await;
        page.fill("#in-radial-shrinkage--where-from-", "two boards, dried")
            .await;
        page.fill("#in-tangential-shrinkage", "7.5").await;
        page.tap("#save-wood").await;
        page.see(".note", "your data").await;
        page.saved().await;
        page.gone("#own-wood-over").await;
        page.holds("#in-price", "12").await;

        // The plank that was recorded before has it now.
        page.go_to(&sheet).await;
        page.figure("The wood's numbers", "your data").await;

        // A quick question answers from it, and says whose numbers they are.
        page.home().await;
        page.press("Quick questions").await;
        ask(&page, "How much does a width shrink or swell?").await;
        page.fill("#in-wood", "river").await;
        page.tap("#woods button").await;
        page.fill("#in-width-across-the-grain", "100").await;
        page.fill("#in-ring-angle-to-the-face", "0").await;
        page.fill("#in-moisture-from", "12").await;
        page.fill("#in-moisture-to", "10").await;
        page.figure("It shrinks by", "0.53 mm").await;
        page.see("#answer .basis", "your data").await;

        // Changed from the settings, taken back, and back again.
        page.go_to("#/settings").await;
        page.see("#own-woods", "your data: 2 numbers").await;
        page.tap("#own-woods a").await;
        page.holds("#in-radial-shrinkage", "4,0 %").await;
        page.fill("#in-stiffness-e-at-12--", "11.2 GPa").await;
        page.tap("#save-wood").await;
        page.see("#own-woods", "your data: 3 numbers").await;
        page.tap("#own-woods a").await;
        page.tap("#take-back-wood").await;
        page.wait_for(
            "no wood of one's own",
            "document.querySelector('#own-woods') && !document.querySelector('#own-woods a')",
            vec![],
        )
        .await;
        page.tap_named(".toast button", "Undo").await;
        page.see("#own-woods", "your data: 3 numbers").await;
        browser.close().await;
    });
}

#[test]
fn a_misspelt_wood_of_the_table_is_offered_by_one_touch() {
    run(async {
        let profile = Folder::new("misspelt");
        let (server, browser, page) = phone(&profile).await;
        page.open(server.address()).await;
        page.new_visit(HOPPLE).await;
        page.press("New pile").await;
        page.fill("#in-wood", "hrad mapel").await;
        page.tap("#own-wood-here").await;
        page.see("#meant", "maple").await;
        page.tap("#meant button").await;
        // Nothing was added: the table's wood is chosen.
        page.see(".note", "Acer saccharum").await;
        page.gone("#own-wood-over").await;
        page.go_to("#/settings").await;
        page.see("#add-wood", "Add a wood of your own").await;
        page.gone("#own-woods a").await;
        browser.close().await;
    });
}
