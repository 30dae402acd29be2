//! The recipe book as the dyer has it: what is built in, and the dyer's own folder beside it.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use crate::recipe;
use crate::recipe::book::{PAGES, Recipes};
use crate::recipe::model::Recipe;

use super::data::{Data, read_text};

/// All recipes, and what is wrong with the dyer's own.
#[derive(Debug, Default)]
pub struct Book {
    /// Built-in ones first, then the dyer's own, each by id.
    pub recipes: Recipes,
    /// The dyer's own files word for word, by id.
    texts: BTreeMap<String, String>,
    /// One line for each fault in the dyer's own files.
    pub faults: Vec<String>,
}

impl Book {
    /// The built-in recipes alone.
    #[must_use]
    pub fn built_in() -> Self {
        Self::default()
    }

    /// The file of a recipe word for word; empty when there is no such recipe.
    #[must_use]
    pub fn text_of(&self, id: &str) -> String {
        let own = self.texts.get(id).map(String::as_str);
        own.or_else(|| recipe::book::text_of(id))
            .unwrap_or_default()
            .to_owned()
    }
}

/// Reads the dyer's own part of the book. A faulty file is told and left as it is.
pub(super) fn all(data: &Data) -> Book {
    let mut book = Book::built_in();
    let mut own: Vec<Arc<Recipe>> = Vec::new();
    for file in data.own_recipe_files() {
        match read_file(&file) {
            Ok((recipe, _)) if is_there(&own, &recipe.id) => {
                book.faults.push(format!(
                    "{}: a recipe called {} is there already",
                    file.display(),
                    recipe.id
                ));
            }
            Ok((recipe, text)) => {
                book.texts.insert(recipe.id.clone(), text);
                own.push(recipe);
            }
            Err(why) => book.faults.extend(why),
        }
    }
    book.recipes = Recipes::with(own);
    book
}

/// Whether a built-in recipe or one of the dyer's own is called so.
fn is_there(own: &[Arc<Recipe>], id: &str) -> bool {
    PAGES.iter().any(|page| page.id == id) || own.iter().any(|recipe| recipe.id == id)
}

/// The recipe of an id, or of a file, or why there is none.
pub(super) fn find(name: &str, data: &Data) -> Result<Arc<Recipe>, String> {
    let book = all(data);
    if let Some(recipe) = book.recipes.iter().find(|recipe| recipe.id == name) {
        return Ok(Arc::clone(recipe));
    }
    let path = Path::new(name);
    if path.extension().is_some_and(|ending| ending == "toml") {
        return read_file(path)
            .map(|(recipe, _)| recipe)
            .map_err(|why| why.join("\n"));
    }
    let ids = book.recipes.iter().map(|recipe| recipe.id.as_str());
    let near = recipe::nearest(name, ids).map_or_else(String::new, |near| format!(" (nearest: {near})"));
    Err(format!(
        "no recipe is called {name}{near}; `potside recipes` lists them"
    ))
}

fn read_file(path: &Path) -> Result<(Arc<Recipe>, String), Vec<String>> {
    let text = read_text(path, recipe::read::FILE_BYTES_MOST).map_err(|why| vec![why])?;
    let recipe = recipe::read(&text).map_err(|faults| {
        faults
            .as_slice()
            .iter()
            .map(|fault| format!("{}: {fault}", path.display()))
            .collect::<Vec<String>>()
    })?;
    Ok((Arc::new(recipe), text))
}
