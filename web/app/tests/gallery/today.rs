//! Today and the search.

use super::{Show, Stage, press};
use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_app::model::Saving;

/// What the shell says of a full device.
const FULL: &str = "There is no room left on this device, so this was not kept. Save the record as a file, make room, \
    then try again.";

/// Shows them.
pub(super) fn show(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut show = |name: &str, desk: &Desk| show(&format!("today-{name}"), desk);
    let mut desk = stage.empty();
    desk.go(Route::Today);
    show("empty", &desk);
    desk.model.shell.install_first = true;
    show("empty-install-first", &desk);

    let mut desk = stage.desk();
    desk.go(Route::Today);
    show("sample", &desk);
    desk.model.shell.new_version = true;
    show("new-version", &desk);
    desk.model.shell.saving = Saving::Failed(FULL.to_owned());
    desk.model.shell.emptied = true;
    show("not-kept", &desk);

    let (mut desk, _) = super::yard::bought(stage);
    desk.go(Route::Today);
    show("after-a-visit", &desk);

    let mut desk = stage.desk();
    desk.go(Route::Find);
    desk.model.shell.can_read_codes = true;
    show("find", &desk);
    desk.type_into("find", "k713");
    show("find-mark", &desk);
    desk.type_into("find", "ebony");
    show("find-nothing", &desk);

    // A plank and a form left half typed are gone on with from here.
    let mut desk = stage.desk();
    let pile = desk.model.state().piles().last().expect("a pile").id;
    desk.go(Route::Sort(pile));
    press(&mut desk, "Measure it now");
    desk.keys("2620");
    desk.go(Route::NewVisit);
    desk.type_into("Yard", "Hopple");
    desk.go(Route::Today);
    show("half-typed", &desk);
}
