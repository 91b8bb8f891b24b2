// What a maker pastes to mend what a remark tells.

/**
 * A mending to the letter, for the hand or for a program: what is written instead of what. The words of a cure that has
 * one are made of it.
 */
export interface Paste {
  /**
   * What stands in the file from the remark's place on, without quotes around it, which go with it. Absent: lines are
   * added at the end of the front matter.
   */
  readonly instead?: string;
  /** What is written in its place; a line that begins a list begins with a line break. */
  readonly with: string;
  /** Lines that are added stand below this key. */
  readonly under?: string;
}
