package org.groovemend.cli;

import org.groovemend.cartridge.LoadedCoil;
import picocli.CommandLine.Option;

/** A pick-up's coil and its load. */
final class CoilOptions {

  @Option(
      names = "--inductance",
      paramLabel = "MH",
      defaultValue = "500",
      description = "Inductance of the coil, millihenry. Default: ${DEFAULT-VALUE}.")
  private double millihenry;

  @Option(
      names = "--coil",
      paramLabel = "OHM",
      defaultValue = "800",
      description = "Resistance of the coil, ohm. Default: ${DEFAULT-VALUE}.")
  private double coilOhms;

  @Option(
      names = "--load",
      paramLabel = "OHM",
      defaultValue = "47000",
      description = "Resistance of the load, ohm. Default: ${DEFAULT-VALUE}.")
  private double loadOhms;

  @Option(
      names = "--capacitance",
      paramLabel = "PF",
      defaultValue = "200",
      description =
          "Capacitance of cable and input together, picofarad. Default: ${DEFAULT-VALUE}.")
  private double picofarad;

  LoadedCoil coil() {
    return Usage.check(
        () -> new LoadedCoil(millihenry * 1e-3, coilOhms, loadOhms, picofarad * 1e-12));
  }
}
