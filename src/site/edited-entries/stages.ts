// How long the stages of a publication take.

/** Takes the time from one stage to the next. */
export class Stages {
  /** Milliseconds, by stage. */
  readonly took: Record<string, number> = {};
  private began = performance.now();

  /** A stage has come to its end, and the next begins. */
  end(stage: string): void {
    this.took[stage] = performance.now() - this.began;
    this.began = performance.now();
  }
}
