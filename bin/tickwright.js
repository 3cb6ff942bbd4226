#!/usr/bin/env node
// The launcher: everything else is in the bundle, which `npm run build` makes.
import { loadBundle } from './load-bundle.js';

const bundle = loadBundle();
if (bundle === null) {
  process.stderr.write(
    'tickwright is not built yet. Run `npm run build` in its folder once, then try again.\n',
  );
  process.exitCode = 2;
} else {
  await bundle.program.start(new URL('./search-thread.js', import.meta.url));
}
