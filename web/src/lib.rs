//! Pegline in the browser: storage, forms in, markup out. No garden knowledge.
