package org.groovemend.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.BooleanSupplier;
import org.groovemend.batch.SideFailure;
import org.groovemend.batch.cluster.ClusterEngine;
import org.groovemend.batch.cluster.ParcelJob;
import org.groovemend.chain.Progress;
import org.groovemend.stage.Crew;
import org.visnow.jlargearrays.ConcurrencyUtils;
import picocli.CommandLine;

/**
 * The command batch for an engine that has sides done on many machines: the one door for such
 * engines.
 */
public final class ClusterBatch {

  private ClusterBatch() {}

  /**
   * The command, in the process that plans.
   *
   * @param program what a person typed before the arguments, for the help
   * @param args as those of {@code groovemend batch}
   * @return the exit code
   */
  public static int run(
      String program, ClusterEngine engine, PrintWriter out, PrintWriter err, String... args) {
    ConcurrencyUtils.setNumberOfThreads(1);
    CommandLine line = Main.configured(new CommandLine(new BatchCommand(engine)));
    line.setCommandName(program);
    line.getCommandSpec()
        .usageMessage()
        .footer(
            "  " + program + " transfers --out cleaned --dry-run",
            "  " + program + " transfers --out cleaned",
            "",
            "Exit codes: 0 done; 2 usage; 3 some sides failed or could not be looked at; 1 stopped, such",
            "as by a master that does not answer; 4 nothing could be looked at; 130 interrupted.");
    line.setOut(out);
    line.setErr(err);
    return line.execute(args);
  }

  /** The same on the process's own streams. */
  public static int run(String program, ClusterEngine engine, String... args) {
    return run(
        program,
        engine,
        new PrintWriter(System.out, true, StandardCharsets.UTF_8),
        new PrintWriter(System.err, true, StandardCharsets.UTF_8),
        args);
  }

  /**
   * One side, on a worker.
   *
   * @param parcel as the engine was given it
   * @param last true if the engine will not attempt it again
   * @param hands threads for it
   * @param stopped whether nobody waits for the answer any more
   * @return the answer for {@link ClusterEngine.Taker#take}
   * @throws org.groovemend.batch.cluster.TryAgainException if the engine is to attempt it again
   * @throws CancellationException if it was stopped; nothing is left of it then
   */
  public static String side(String parcel, boolean last, int hands, BooleanSupplier stopped) {
    ConcurrencyUtils.setNumberOfThreads(1);
    Progress progress =
        (step, done, total) -> {
          if (stopped.getAsBoolean()) {
            throw new CancellationException("interrupted");
          }
        };
    if (hands == 1) {
      return side(parcel, last, Crew.alone(), progress);
    }
    ExecutorService executor = Executors.newFixedThreadPool(hands);
    try {
      return side(parcel, last, new Crew(executor, hands + 1), progress);
    } finally {
      executor.shutdownNow();
    }
  }

  private static String side(String parcel, boolean last, Crew crew, Progress progress) {
    return ParcelJob.run(
        parcel,
        last,
        crew,
        progress,
        text -> TreatmentFile.parse(text, "treatment"),
        (trouble, order) -> {
          List<Path> read = new ArrayList<>(List.of(order.found().file()));
          if (order.grooveOf() != null) {
            read.add(order.grooveOf());
          }
          Failures.Failure told = Failures.describe(trouble, read, true);
          return new SideFailure(told.kind(), told.sentence());
        });
  }
}
