/** What the speaker of a record may name, when the job has none of it. */
export const NOTHING = {
  people: [],
  rooms: [],
  surfaces: [],
  materials: [],
  limits: [],
  systems: [],
  ownRules: [],
  shots: [],
  chains: [],
  log: [],
};
