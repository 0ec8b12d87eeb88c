/** A photo as its group shows it. */
export interface TileShot {
  readonly id: string;
  readonly sha256: string;
  readonly time: string;
  /** Read aloud. */
  readonly name: string;
}
