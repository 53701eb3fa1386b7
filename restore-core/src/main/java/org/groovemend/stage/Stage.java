package org.groovemend.stage;

import org.groovemend.audio.AudioFormat;

/** One treatment with all it needs to know, not yet running. Immutable; safe to share. */
public sealed interface Stage permits RepairStage, SignalStage {

  StageParameters parameters();

  Segmentation segmentation(AudioFormat format);

  /**
   * True if this stage with these settings returns every input bit for bit; it is then left out of
   * the chain.
   */
  boolean neutral();
}
