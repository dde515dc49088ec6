//! All jobs at once: what is here, taking in many entries and pictures that came from outside, removing a job from the bin.
//!
//! May use: what `store` uses. Must not: overwrite. What is there stays as it is, whatever comes in.

use std::collections::BTreeSet;

use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{TransactionDurability, TransactionMode, TransactionOptions};
use uuid::Uuid;

use super::{ENTRIES, HEADS, PHOTOS, Picture, SHELF, Store, StoreError, all_of, key, picture_value};
use crate::job::head::Head;

/// What one transaction takes in: all of it or nothing.
#[derive(Default)]
pub struct Batch {
    /// Lines, by job and id.
    pub lines: Vec<(Uuid, Uuid, String)>,
    /// Pictures and the job they belong to.
    pub pictures: Vec<(Uuid, Picture)>,
    /// The jobs' lines for the list, as they will be.
    pub heads: Vec<Head>,
    /// Products for the shelf, a line each.
    pub products: Vec<(Uuid, String)>,
}

impl Store {
    /// Every job that has an entry, whether the list knows it or not.
    pub async fn jobs(&self) -> Result<BTreeSet<Uuid>, StoreError> {
        let keys = self.keys(ENTRIES).await?;
        Ok(keys.iter().filter_map(|k| Uuid::try_parse(k.split('/').next()?).ok()).collect())
    }

    /// Every picture and sound that is here.
    pub async fn pictures(&self) -> Result<BTreeSet<Uuid>, StoreError> {
        Ok(self.keys(PHOTOS).await?.iter().filter_map(|k| Uuid::try_parse(k).ok()).collect())
    }

    /// How many entries each of these jobs has, counted without reading them.
    pub async fn counts(&self, jobs: &[Uuid]) -> Result<Vec<usize>, StoreError> {
        let tx = self.db.transaction(ENTRIES).build()?;
        let store = tx.object_store(ENTRIES)?;
        let mut counts = Vec::new();
        for job in jobs {
            counts.push(store.count().with_query::<String, _>(all_of(*job)).primitive()?.await? as usize);
        }
        Ok(counts)
    }

    /// Removes a job and what its log names, in one transaction.
    ///
    /// # Errors
    /// Any [`StoreError`]; then all of it is still there.
    pub async fn remove(&self, job: Uuid, media: &[Uuid]) -> Result<(), StoreError> {
        if self.read_only() {
            return Err(StoreError::Newer);
        }
        let tx = self.db.transaction([ENTRIES, PHOTOS, HEADS]).with_mode(TransactionMode::Readwrite).build()?;
        tx.object_store(ENTRIES)?.delete::<String, _>(all_of(job)).primitive()?.await?;
        let photos = tx.object_store(PHOTOS)?;
        for id in media {
            photos.delete(id.to_string()).primitive()?.await?;
        }
        tx.object_store(HEADS)?.delete(job.to_string()).primitive()?.await?;
        tx.commit().await?;
        Ok(())
    }

    async fn keys(&self, store: &str) -> Result<Vec<String>, StoreError> {
        let tx = self.db.transaction(store).build()?;
        let rows = tx.object_store(store)?.get_all_keys::<String>().primitive()?.await?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// Writes what is not here yet, in one transaction. Returns when that is complete, with how many lines and
    /// pictures were written.
    ///
    /// # Errors
    /// Any [`StoreError`]; then nothing of it was written.
    pub async fn take_in(&self, batch: Batch) -> Result<(usize, usize), StoreError> {
        if self.read_only() {
            return Err(StoreError::Newer);
        }
        let strict = TransactionOptions::new().with_durability(TransactionDurability::Strict);
        let tx = self
            .db
            .transaction([ENTRIES, PHOTOS, HEADS, SHELF])
            .with_mode(TransactionMode::Readwrite)
            .with_options(strict)
            .build()?;
        let (mut lines, mut pictures) = (0, 0);
        // Looked up and added in the same transaction: nobody writes in between.
        let store = tx.object_store(PHOTOS)?;
        for (job, picture) in batch.pictures {
            let id = picture.id.to_string();
            if store.get_key::<String, _>(id.clone()).primitive()?.await?.is_none() {
                store.add(picture_value(job, &picture)?).with_key(id).primitive()?.await?;
                pictures += 1;
            }
        }
        let store = tx.object_store(ENTRIES)?;
        for (job, id, line) in batch.lines {
            let at = key(job, id);
            if store.get_key::<String, _>(at.clone()).primitive()?.await?.is_none() {
                store.add(line).with_key(at).primitive()?.await?;
                lines += 1;
            }
        }
        let store = tx.object_store(HEADS)?;
        for head in batch.heads {
            store.put(head.line()).with_key(head.job.to_string()).primitive()?.await?;
        }
        let store = tx.object_store(SHELF)?;
        for (id, line) in batch.products {
            if store.get_key::<String, _>(id.to_string()).primitive()?.await?.is_none() {
                store.add(line).with_key(id.to_string()).primitive()?.await?;
            }
        }
        tx.commit().await?;
        Ok((lines, pictures))
    }
}
