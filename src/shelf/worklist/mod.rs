//! Work lists: baths in order for the same goods, with the waits between. Read, checked against recipes and goods,
//! computed bath by bath.

mod book;
mod check;
mod finding;
mod model;
mod plan;
mod progress;
mod read;

pub use book::{NotAList, all, by_id, text_of};
pub use check::check;
pub use finding::{Finding, Mark, Severity, Trouble};
pub use model::{ListedBath, Order, Wait, WaitKind, WorkList, order_of};
pub use plan::{PlannedBath, WorkPlan, lay_out};
pub use progress::{Progress, progress};
pub use read::read;
