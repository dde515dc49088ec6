//! The shelf of products that comes with a backup: the same rule, union by id, what is here stays.

use std::collections::BTreeMap;

use serde::Deserialize;
use uuid::Uuid;

use crate::job::entry::Unread;

/// What would happen to the shelf.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Products {
    /// Lines to be written.
    pub new: Vec<String>,
    /// So many are here already.
    pub same: usize,
    /// Same id, another content, ours and theirs: ours stays.
    pub differs: Vec<(String, String)>,
    /// Lines without an id: they stay out.
    pub unreadable: Vec<Unread>,
}

/// Compares two shelves, each a product a line.
pub fn products<S: AsRef<str>, T: AsRef<str>>(ours: &[S], theirs: &[T]) -> Products {
    let mut result = Products::default();
    let mut here: BTreeMap<Uuid, &str> =
        ours.iter().filter_map(|l| Some((id(l.as_ref()).ok()?, l.as_ref()))).collect();
    for line in theirs.iter().map(AsRef::as_ref) {
        match id(line).map(|id| (id, here.get(&id))) {
            Err(why) => result.unreadable.push(Unread { raw: line.into(), why }),
            Ok((id, None)) => {
                here.insert(id, line);
                result.new.push(line.into());
            }
            Ok((_, Some(old))) if *old == line => result.same += 1,
            Ok((_, Some(old))) => result.differs.push(((*old).into(), line.into())),
        }
    }
    result
}

/// The id of a product's line, whatever else this version can read of it.
pub fn product_id(line: &str) -> Option<Uuid> {
    id(line).ok()
}

fn id(line: &str) -> Result<Uuid, String> {
    #[derive(Deserialize)]
    struct Id {
        id: Uuid,
    }
    serde_json::from_str(line).map(|i: Id| i.id).map_err(|e| format!("not a product: {e}"))
}
