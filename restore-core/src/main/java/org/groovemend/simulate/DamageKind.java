package org.groovemend.simulate;

/** What a damaged range of the truth is. */
public enum DamageKind {
  /** The stylus lands. */
  NEEDLE_DROP,
  /** One crossing of a scratch: about once a turn. */
  SCRATCH,
  /** A grain of dust or a pit, anywhere. */
  DUST,
  /** One of very many very small ticks. */
  CRACKLE,
  /** The groove's join in the run-out: once a turn. */
  RUN_OUT,
  /** A broken or dug-up place that sets the arm swinging. */
  THUMP,
  /** The stylus is lifted. */
  LIFT
}
