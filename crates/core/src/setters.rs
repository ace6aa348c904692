//! How a question is put together: what it needs goes into its constructor, each further fact is one call.

/// A call for each fact that need not be given. What may be unknown is taken as it is or as an `Option`; with `const` as an `Option` only, for what
/// stands in a table.
macro_rules! setters {
    () => {};
    ($(#[$doc:meta])* $name:ident: Option<$type:ty>; $($rest:tt)*) => {
        $(#[$doc])*
        #[must_use]
        pub fn $name(self, $name: impl Into<Option<$type>>) -> Self {
            Self { $name: $name.into(), ..self }
        }

        $crate::setters::setters! { $($rest)* }
    };
    ($(#[$doc:meta])* const $name:ident: $type:ty; $($rest:tt)*) => {
        $crate::setters::setters! { @as_it_is $(#[$doc])* $name: $type; }
        $crate::setters::setters! { $($rest)* }
    };
    ($(#[$doc:meta])* $name:ident: $type:ty; $($rest:tt)*) => {
        $crate::setters::setters! { @as_it_is $(#[$doc])* $name: $type; }
        $crate::setters::setters! { $($rest)* }
    };
    (@as_it_is $(#[$doc:meta])* $name:ident: $type:ty;) => {
        $(#[$doc])*
        #[must_use]
        pub const fn $name(self, $name: $type) -> Self {
            Self { $name, ..self }
        }
    };
}
pub(crate) use setters;
