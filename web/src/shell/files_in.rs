//! Files brought to the device: chosen, dropped, opened with the app, shared to the app. It gives
//! bytes and a name, and never asks what is in them: reading a record is core's work.

use super::bytes::taken_over;
use super::store::name_and_message;
use js_sys::{Array, Function, Reflect, Uint8Array};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, Cache, DataTransfer, File, FileList, HtmlInputElement, Request, Response};

/// Where the service worker puts files that another app shared to this one, until the page has
/// taken them. Each is a response under any address of its own, with the file's name,
/// percent-encoded, in the header below.
const SHARED_CACHE: &str = "stillwood-shared";
const NAME_HEADER: &str = "X-File-Name";
/// What the browser told the service worker of the sender.
const SENDER_HEADER: &str = "X-Shared-From";
/// The page is opened with this after a share; what it is set to is why nothing came of it.
const SHARED_SIGN: &str = "shared";

/// More than this is taken for the wrong file, rather than run the device out of memory.
const SIZE_LIMIT: f64 = 500.0 * 1024.0 * 1024.0;

/// A file that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum FileInError {
    #[error("{name} is {mib} MiB, far more than any record. Was it the right file?")]
    TooLarge { name: String, mib: u32 },
    #[error("{name} could not be read ({reason}). Copy it to this device first, then open it.")]
    NotRead { name: String, reason: String },
    #[error("What was shared to Stillwood could not be fetched ({0}). Save it, then open it here.")]
    ShareLost(String),
    #[error(
        "Another website tried to hand a file to Stillwood. It was refused, and nothing was kept. \
         If you wanted it, save the file, then open it here."
    )]
    ShareRefused,
    #[error(
        "Too much was shared to Stillwood at one time, and nothing of it was kept. Share fewer \
         files, or save them and open them here."
    )]
    ShareTooMuch,
}

/// By which way a file came, as far as the browser tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Came {
    /// Chosen, dropped or opened with the app by the maker.
    ByHand,
    /// Shared by the system for another app.
    FromApp,
    /// Shared; by whom, the browser does not tell.
    FromUnknown,
    /// Shared by a page of this address.
    FromHere,
}

impl Came {
    fn of_header(told: Option<&str>) -> Self {
        match told {
            Some("app") => Self::FromApp,
            Some("here") => Self::FromHere,
            _ => Self::FromUnknown,
        }
    }
}

/// A file's name and content, and the way it came.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Incoming {
    pub(crate) name: String,
    pub(crate) bytes: Vec<u8>,
    pub(crate) came: Came,
}

/// Reads one file whole.
pub(crate) async fn read(file: &File) -> Result<Incoming, FileInError> {
    let name = file.name();
    let bytes = read_blob(file, &name, SIZE_LIMIT).await?;
    let came = Came::ByHand;
    Ok(Incoming { name, bytes, came })
}

/// The files chosen in `<input type=file>`. The field is emptied, so that choosing the same file
/// again is heard of too.
pub(crate) fn chosen(input: &HtmlInputElement) -> Vec<File> {
    let files = to_vec(input.files());
    input.set_value("");
    files
}

/// The files dropped on the page.
pub(crate) fn dropped(data: &DataTransfer) -> Vec<File> {
    to_vec(data.files())
}

/// Calls `open` with the files each time the maker opens some with the app from outside, where the
/// browser offers that.
pub(crate) fn on_opened_with(open: impl Fn(Result<Vec<File>, FileInError>) + Clone + 'static) {
    let consumer = Closure::<dyn Fn(JsValue)>::new(move |launch: JsValue| {
        let open = open.clone();
        spawn_local(async move {
            let files = launched_files(&launch).await;
            // Started from its icon, the app is launched with no file at all.
            if !files.as_ref().is_ok_and(Vec::is_empty) {
                open(files);
            }
        });
    });
    let set = || -> Result<(), JsValue> {
        let queue = Reflect::get(&js_sys::global(), &JsValue::from_str("launchQueue"))?;
        let function: Function =
            Reflect::get(&queue, &JsValue::from_str("setConsumer"))?.dyn_into()?;
        function.call1(&queue, consumer.as_ref())?;
        Ok(())
    };
    if set().is_ok() {
        // The browser keeps it for as long as the page lives.
        consumer.forget();
    }
}

/// Whether this page was opened by a share to the app.
pub(crate) fn opened_by_share() -> bool {
    shared_sign().is_some()
}

/// What the page's address says of a share, if anything; empty where all went well.
fn shared_sign() -> Option<String> {
    let search = web_sys::window()?.location().search().ok()?;
    let mut parts = search.trim_start_matches('?').split('&');
    parts.find_map(|part| {
        let (name, how) = part.split_once('=').unwrap_or((part, ""));
        (name == SHARED_SIGN).then(|| how.to_owned())
    })
}

/// Takes the sign out of the page's address: what was told is not told again at the next load.
fn take_sign() -> Result<(), JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let location = window.location();
    let address = format!("{}{}", location.pathname()?, location.hash()?);
    let history = window.history()?;
    history.replace_state_with_url(&history.state()?, "", Some(&address))
}

/// What became of the files that were shared to the app: those that were read, and why others were not.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Shared {
    pub(crate) files: Vec<Incoming>,
    pub(crate) not_read: Vec<FileInError>,
    /// Where those lie that can't be read: they stay until they can, or are dropped.
    pub(crate) stay: Vec<String>,
}

/// Takes the files that were shared to the app. Each is read before it is removed from where the
/// service worker put it; one that cannot be read stays there and is reported, and the others are handed on.
pub(crate) async fn take_shared() -> Shared {
    take_shared_below(SIZE_LIMIT).await
}

async fn take_shared_below(limit: f64) -> Shared {
    let mut shared = Shared::default();
    if let Err(why) = take_each(limit, &mut shared).await {
        shared.not_read.push(why);
    }
    shared
}

async fn take_each(limit: f64, shared: &mut Shared) -> Result<(), FileInError> {
    let sign = shared_sign().unwrap_or_default();
    if !sign.is_empty() {
        take_sign().map_err(|thrown| FileInError::ShareLost(reason(&thrown)))?;
    }
    match sign.as_str() {
        "" => {}
        "refused" => return Err(FileInError::ShareRefused),
        "too-much" => return Err(FileInError::ShareTooMuch),
        _ => return Err(FileInError::ShareLost("no file came".to_owned())),
    }
    let lost = |thrown: JsValue| FileInError::ShareLost(reason(&thrown));
    if !Reflect::has(&js_sys::global(), &JsValue::from_str("caches")).unwrap_or(false) {
        return Ok(());
    }
    let cache = shared_cache().await?;
    let requests: Array = JsFuture::from(cache.keys())
        .await
        .map_err(lost)?
        .unchecked_into();
    for request in requests.iter() {
        let request: Request = request.unchecked_into();
        if let Err(why) = take_one(&cache, &request, limit, shared).await {
            shared.not_read.push(why);
            shared.stay.push(request.url());
        }
    }
    Ok(())
}

/// Where the service worker puts what is shared.
async fn shared_cache() -> Result<Cache, FileInError> {
    let lost = |thrown: JsValue| FileInError::ShareLost(reason(&thrown));
    let caches = web_sys::window()
        .and_then(|window| window.caches().ok())
        .ok_or_else(|| FileInError::ShareLost("no cache".to_owned()))?;
    let cache = JsFuture::from(caches.open(SHARED_CACHE)).await;
    Ok(cache.map_err(lost)?.unchecked_into())
}

/// Drops files that were shared to the app, by where they lie.
pub(crate) async fn drop_shared(addresses: &[String]) -> Result<(), FileInError> {
    let lost = |thrown: JsValue| FileInError::ShareLost(reason(&thrown));
    let cache = shared_cache().await?;
    for address in addresses {
        let dropped = JsFuture::from(cache.delete_with_str(address)).await;
        dropped.map_err(lost)?;
    }
    Ok(())
}

/// Takes one of the files: what was read is handed on even where it can't be removed.
async fn take_one(
    cache: &Cache,
    request: &Request,
    limit: f64,
    shared: &mut Shared,
) -> Result<(), FileInError> {
    let lost = |thrown: JsValue| FileInError::ShareLost(reason(&thrown));
    let found = JsFuture::from(cache.match_with_request(request))
        .await
        .map_err(lost)?;
    // Another tab may have taken it in the meantime.
    let Ok(response) = found.dyn_into::<Response>() else {
        return Ok(());
    };
    shared.files.push(read_response(&response, limit).await?);
    JsFuture::from(cache.delete_with_request(request))
        .await
        .map_err(lost)?;
    Ok(())
}

async fn read_response(response: &Response, limit: f64) -> Result<Incoming, FileInError> {
    let name = response
        .headers()
        .get(NAME_HEADER)
        .ok()
        .flatten()
        .and_then(|coded| js_sys::decode_uri_component(&coded).ok())
        .map_or_else(|| "shared file".to_owned(), String::from);
    let came = Came::of_header(
        response
            .headers()
            .get(SENDER_HEADER)
            .ok()
            .flatten()
            .as_deref(),
    );
    let lost = |thrown: JsValue| FileInError::ShareLost(reason(&thrown));
    let blob: Blob = JsFuture::from(response.blob().map_err(lost)?)
        .await
        .map_err(lost)?
        .unchecked_into();
    let bytes = read_blob(&blob, &name, limit).await?;
    Ok(Incoming { name, bytes, came })
}

async fn read_blob(blob: &Blob, name: &str, limit: f64) -> Result<Vec<u8>, FileInError> {
    let size = blob.size();
    if size > limit {
        return Err(FileInError::TooLarge {
            name: name.to_owned(),
            // A file's size fits by far.
            mib: (size / 1024.0 / 1024.0) as u32,
        });
    }
    let buffer = JsFuture::from(blob.array_buffer())
        .await
        .map_err(|thrown| FileInError::NotRead {
            name: name.to_owned(),
            reason: reason(&thrown),
        })?;
    Ok(taken_over(&Uint8Array::new(&buffer)))
}

/// The files behind the handles of a launch.
async fn launched_files(launch: &JsValue) -> Result<Vec<File>, FileInError> {
    let handles = Reflect::get(launch, &JsValue::from_str("files"))
        .ok()
        .filter(Array::is_array)
        .map(|files| Array::from(&files))
        .unwrap_or_default();
    let mut files = Vec::new();
    for handle in handles.iter() {
        let file = file_of(&handle).await.map_err(|thrown| {
            let name = Reflect::get(&handle, &JsValue::from_str("name"));
            FileInError::NotRead {
                name: name
                    .ok()
                    .and_then(|name| name.as_string())
                    .unwrap_or_else(|| "the file".to_owned()),
                reason: reason(&thrown),
            }
        })?;
        files.push(file);
    }
    Ok(files)
}

async fn file_of(handle: &JsValue) -> Result<File, JsValue> {
    let function: Function = Reflect::get(handle, &JsValue::from_str("getFile"))?.dyn_into()?;
    let promise: js_sys::Promise = function.call0(handle)?.dyn_into()?;
    JsFuture::from(promise).await?.dyn_into()
}

fn reason(thrown: &JsValue) -> String {
    let (name, message) = name_and_message(thrown);
    format!("{name}: {message}")
}

fn to_vec(list: Option<FileList>) -> Vec<File> {
    let Some(list) = list else {
        return Vec::new();
    };
    (0..list.length()).filter_map(|at| list.get(at)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    async fn share(cache: &Cache, address: &str, name: &str, text: &str) -> Result<(), JsValue> {
        let response = Response::new_with_opt_str(Some(text))?;
        response.headers().set(NAME_HEADER, name)?;
        response.headers().set(SENDER_HEADER, "app")?;
        JsFuture::from(cache.put_with_str(address, &response)).await?;
        Ok(())
    }

    fn from_app(name: &str, text: &str) -> Incoming {
        Incoming {
            name: name.to_owned(),
            bytes: text.as_bytes().to_vec(),
            came: Came::FromApp,
        }
    }

    #[wasm_bindgen_test]
    async fn shared_files_are_taken_once_and_one_that_cant_be_read_stays_alone()
    -> Result<(), JsValue> {
        let cache = shared_cache().await.map_err(|why| why.to_string())?;
        share(&cache, "./shared/1", "h%C3%AAtre%201.json", "{\"a\":1}\n").await?;
        share(&cache, "./shared/2", "large.json", "far too long").await?;
        share(&cache, "./shared/3", "3.json", "{}").await?;
        let taken = take_shared_below(10.0).await;
        let read = vec![
            from_app("hêtre 1.json", "{\"a\":1}\n"),
            from_app("3.json", "{}"),
        ];
        assert_eq!(taken.files, read);
        let too_large = |why: &FileInError| matches!(why, FileInError::TooLarge { .. });
        assert!(taken.not_read.len() == 1 && taken.not_read.iter().all(too_large));
        // It stays, and is taken where it can be.
        let later = take_shared().await;
        assert_eq!(later.files, vec![from_app("large.json", "far too long")]);
        assert_eq!(take_shared().await, Shared::default());
        // Or it is dropped.
        share(&cache, "./shared/4", "4.json", "far too long").await?;
        let stays = take_shared_below(10.0).await.stay;
        drop_shared(&stays).await.map_err(|why| why.to_string())?;
        assert_eq!(take_shared().await, Shared::default());
        Ok(())
    }
}
