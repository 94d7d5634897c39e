mod high;
mod low;
