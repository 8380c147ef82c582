//! Parts of a page that follow the state, under one type: the page's machinery is then compiled once
//! and not anew for every closure and every kind of element in it.

use leptos::prelude::*;
use leptos::tachys::reactive_graph::SharedReactiveFunction;
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// A part of a page that is drawn again when what it reads has changed.
pub(crate) fn live<V: Shown + 'static>(
    mut draw: impl FnMut() -> V + Send + 'static,
) -> SharedReactiveFunction<AnyView> {
    Arc::new(Mutex::new(move || draw().shown()))
}

/// Does something once what it watches has changed and was then left alone for a while.
pub(crate) fn after_pause(
    pause: Duration,
    watch: impl Fn() + 'static,
    then: impl Fn() + Clone + 'static,
) {
    let turn = StoredValue::new(0_u32);
    Effect::new(move |_| {
        watch();
        turn.update_value(|turn| *turn = turn.wrapping_add(1));
        let (mine, then) = (turn.get_value(), then.clone());
        set_timeout(
            // The screen may be gone by then.
            move || {
                if turn.try_get_value() == Some(mine) {
                    then();
                }
            },
            pause,
        );
    });
}

/// What is in the page only while something is so.
#[component]
pub(crate) fn When(
    /// Whether it is so.
    #[prop(into)]
    so: Signal<bool>,
    /// What is then in the page.
    children: ChildrenFn,
) -> impl IntoView {
    let so = Memo::new(move |_| so.get());
    live(move || so.get().then(|| children()))
}

/// What can stand in a page.
pub(crate) trait Shown {
    /// It, under one type.
    fn shown(self) -> AnyView;
}

impl Shown for AnyView {
    fn shown(self) -> AnyView {
        self
    }
}

impl Shown for String {
    fn shown(self) -> AnyView {
        self.into_any()
    }
}

impl Shown for &'static str {
    fn shown(self) -> AnyView {
        self.into_any()
    }
}

impl<T: RenderHtml + Send + 'static> Shown for View<T> {
    fn shown(self) -> AnyView {
        self.into_inner().into_any()
    }
}

impl<V: Shown> Shown for Option<V> {
    fn shown(self) -> AnyView {
        self.map(Shown::shown).into_any()
    }
}

impl<V: Shown> Shown for Vec<V> {
    fn shown(self) -> AnyView {
        self.collect_any()
    }
}

/// A row of views under one type.
pub(crate) trait CollectAny {
    /// All, one after the other.
    fn collect_any(self) -> AnyView;
}

impl<I: IntoIterator<Item: Shown>> CollectAny for I {
    fn collect_any(self) -> AnyView {
        let mut all = Vec::new();
        all.extend(self.into_iter().map(Shown::shown));
        all.into_any()
    }
}
