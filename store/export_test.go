package store

// What tests and benchmarks of the package from outside look at.
var BadgerOptions = badgerOptions
