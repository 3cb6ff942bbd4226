// What a thread of the search runs: the same bundle, by its other door.
import { loadBundle } from './load-bundle.js';

await loadBundle().program.serve();
