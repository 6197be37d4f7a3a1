/**
 * A tear line that no mesh can be made round: points that coincide, segments that cross. It comes from where a tear happens to go, not
 * from a mistake, so whoever asked for the mesh catches it and says so as a status; every other exception is a fault of ours.
 */
export class Unmeshable extends Error {
  override readonly name = 'Unmeshable';
}
