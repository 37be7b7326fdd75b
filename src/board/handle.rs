//! Handles: which thing of a kind is meant. And values of which there is one for each thing.

use std::marker::PhantomData;
use std::ops::{Deref, DerefMut, Index, IndexMut};

/// Which thing of a kind is meant, as its place in the list of that kind. A handle is made by
/// whoever has the list, and is only good for that list.
pub trait Handle: Copy + Eq {
    /// The thing at this place of its list.
    fn new(index: usize) -> Self;

    /// Its place in its list.
    fn index(self) -> usize;
}

/// One value for each thing of a kind, in the order of the things. As a slice it is its values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandleMap<H, T> {
    values: Vec<T>,
    things: PhantomData<H>,
}

impl<H: Handle, T> HandleMap<H, T> {
    /// Of values in the order of the things, one for each.
    pub fn new(values: Vec<T>) -> Self {
        Self { values, things: PhantomData }
    }

    /// Adds a thing with its value.
    pub fn push(&mut self, value: T) -> H {
        self.values.push(value);
        H::new(self.values.len() - 1)
    }

    /// Each thing with its value.
    pub fn entries(&self) -> impl Iterator<Item = (H, &T)> {
        self.values.iter().enumerate().map(|(index, value)| (H::new(index), value))
    }

    /// Lets two things change their values.
    pub fn exchange(&mut self, a: H, b: H) {
        self.values.swap(a.index(), b.index());
    }
}

impl<H: Handle, T> Index<H> for HandleMap<H, T> {
    type Output = T;

    fn index(&self, handle: H) -> &T {
        &self.values[handle.index()]
    }
}

impl<H: Handle, T> IndexMut<H> for HandleMap<H, T> {
    fn index_mut(&mut self, handle: H) -> &mut T {
        &mut self.values[handle.index()]
    }
}

impl<H, T> Deref for HandleMap<H, T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.values
    }
}

impl<H, T> DerefMut for HandleMap<H, T> {
    fn deref_mut(&mut self) -> &mut [T] {
        &mut self.values
    }
}

impl<'m, H, T> IntoIterator for &'m HandleMap<H, T> {
    type Item = &'m T;
    type IntoIter = std::slice::Iter<'m, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.iter()
    }
}

impl<H: Handle, T> FromIterator<T> for HandleMap<H, T> {
    fn from_iter<I: IntoIterator<Item = T>>(values: I) -> Self {
        Self::new(values.into_iter().collect())
    }
}
