package org.groovemend.thump;

/**
 * The shapes that are tried at one sampling rate, made once for all workers. Immutable.
 *
 * @param templates tried everywhere
 * @param grid tried where something was found
 */
record ThumpShapes(OnsetTemplates templates, ThumpGrid grid) {
  static ThumpShapes of(ThumpGeometry g) {
    return new ThumpShapes(new OnsetTemplates(g), new ThumpGrid(g));
  }
}
