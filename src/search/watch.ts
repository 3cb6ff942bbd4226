// How a caller follows a search and ends it. The search knows no clock and no process: it tells what is better than
// before, and asks between its steps whether it is still wanted. A search that is never cancelled gives the same answer
// whether it is watched or not.

export interface Watch<Found> {
  /** Told whenever something better is known than before: what the search would answer if it ended here. */
  found?(outcome: Found): void;
  /** Asked between steps, some of which take long; true ends the search with the best that is known. */
  isCancelled?(): boolean;
}
