package org.groovemend.thump;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.groovemend.audio.AudioFormat;
import org.groovemend.stage.RepairStage;
import org.groovemend.stage.Segmentation;

/** Finds thumps and takes them out, leaving every other sample as it is. */
public final class ThumpStage implements RepairStage {
  private final ThumpParameters parameters;
  private final Map<ThumpGeometry, ThumpShapes> shapes = new ConcurrentHashMap<>();

  public ThumpStage(ThumpParameters parameters) {
    this.parameters = parameters;
  }

  @Override
  public ThumpParameters parameters() {
    return parameters;
  }

  @Override
  public Segmentation segmentation(AudioFormat format) {
    ThumpGeometry g = ThumpGeometry.of(parameters, format.sampleRateHz());
    return new Segmentation(g.segment(), g.contextBefore(), g.contextAfter());
  }

  @Override
  public boolean neutral() {
    return parameters.isNeutral();
  }

  @Override
  public Worker open(AudioFormat format) {
    return new ThumpWorker(this, format);
  }

  /** Made by the first worker that needs them. */
  ThumpShapes shapes(ThumpGeometry g) {
    return shapes.computeIfAbsent(g, ThumpShapes::of);
  }
}
