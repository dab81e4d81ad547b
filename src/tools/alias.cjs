const path = require('node:path');

/** Where `$lib` lies, in the one form that the check of imports reads; relative to the tree that it is run on. */
module.exports = { resolve: { alias: { $lib: path.resolve('src/lib') } } };
