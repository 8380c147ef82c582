//! This device takes another name or sign, where another one shares its own.

use crate::app::App;
use crate::identity::{DEVICE, Device, Identity, SIGN, has_a_twin, second_place, take};
use crate::shell::clock;
use crate::shell::store::{Change, StoreError};
use stillwood_core::record::{SharedSign, free_sign, queries};

const TWIN: &str = "Another device writes under this one's name: its storage was copied or restored. So \
     this one takes a new name.";

impl App {
    fn device(&self) -> Result<Device, StoreError> {
        self.keeping(|keeping| keeping.device.clone())
            .ok_or(StoreError::NoStore)
    }

    fn becomes(&self, device: Device, notice: Option<String>) {
        let known = device.in_record();
        self.keeping(|keeping| keeping.device = Some(device));
        self.change(|model| {
            model.record.becomes(known);
            if notice.is_some() {
                model.shell.identity_notice = notice;
            }
        });
        self.paint();
    }

    /// Takes a new identity before the next entry is written, for another device writes under this one's.
    pub(crate) async fn leave_to_the_twin(&self) -> Result<(), StoreError> {
        let (store, device) = (self.store(), self.device()?);
        let seen = match &store {
            Some(store) => store.setting(DEVICE).await?,
            None => None,
        };
        let place = (!self.is_sample()).then(second_place).flatten(); // nothing lost: as at the start
        // Another window of this device may have taken one already.
        let taken = match seen.as_deref().map(serde_json::from_str::<Device>) {
            Some(Ok(there)) if there.id != device.id => Identity {
                device: there,
                notice: None,
            },
            _ => {
                take(
                    store.as_ref(),
                    seen.as_deref(),
                    None,
                    place.as_ref(),
                    Some(TWIN),
                )
                .await?
            }
        };
        self.becomes(taken.device, taken.notice);
        Ok(())
    }

    /// Where another device gives marks with this one's sign as well, and is the one to keep it, this one
    /// takes another sign for all marks to come.
    pub(crate) async fn leave_a_shared_sign(&self) -> Result<(), StoreError> {
        let (store, device) = (self.store(), self.device()?);
        let shared = self.record(|record| queries::shared_signs(record.state()));
        let loses = |one: &SharedSign| {
            one.sign == device.sign
                && one.devices.first() != Some(&device.id)
                && one.devices.contains(&device.id)
        };
        if !shared.iter().any(loses) {
            return Ok(());
        }
        let taken = self.record(|record| queries::signs_taken(record.state()));
        let not_made = |why: String| StoreError::NotMade(why);
        let [a, b, c, d, ..] = clock::random_bytes16().map_err(|why| not_made(why.to_string()))?;
        let Some(sign) = free_sign(&taken, u32::from_le_bytes([a, b, c, d])) else {
            return Ok(());
        };
        let mut with_another = Device {
            sign,
            ..device.clone()
        };
        if let Some(store) = &store {
            let text = |device: &Device| {
                serde_json::to_string(device).map_err(|why| not_made(why.to_string()))
            };
            let seen = store.setting(DEVICE).await?;
            let sign = serde_json::to_string(&with_another.sign)
                .map_err(|why| not_made(why.to_string()))?;
            let change = Change::new()
                .with_setting(DEVICE, &text(&with_another)?)
                .with_setting(SIGN, &sign);
            if let Some(there) = store.swap_setting(DEVICE, seen.as_deref(), &change).await? {
                with_another =
                    serde_json::from_str(&there).map_err(|why| not_made(why.to_string()))?;
            }
        }
        let notice = format!(
            "Another device begins its marks with {} too. Marks of this one begin with {} from now on.",
            device.sign, with_another.sign
        );
        self.becomes(with_another, Some(notice));
        Ok(())
    }

    /// Looks whether what was read since shows that another device shares this one's identity.
    pub(crate) async fn look_for_a_twin(&self) -> Result<(), StoreError> {
        let (store, device) = (self.store(), self.device()?);
        let own = self.record(|record| record.own_entries());
        let Some(store) = store else { return Ok(()) };
        let (entries, highest) = own;
        if entries == 0 {
            return Ok(());
        }
        let counted = match store
            .setting(&device.counter())
            .await?
            .map(|text| text.parse())
        {
            Some(Ok(counted)) => counted,
            // nothing lost: then what the record holds is counted
            Some(Err(_)) | None => highest,
        };
        if has_a_twin(entries, highest, counted) {
            self.leave_to_the_twin().await?;
        }
        Ok(())
    }
}
