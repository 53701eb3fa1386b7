package org.groovemend.spark;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.logging.log4j.Level;
import org.apache.logging.log4j.core.config.Configurator;
import org.apache.spark.SparkConf;
import org.apache.spark.api.java.JavaSparkContext;
import org.groovemend.batch.cluster.ClusterEngine;
import org.groovemend.batch.cluster.ClusterException;

/**
 * Has parcels done as tasks of Spark. All are one job, so that the longest come first and nobody
 * waits for the end of a batch. Spark ends a job when one task fails too often, which is then a
 * side whose worker dies of it: that side is given up, and what is left becomes another job.
 */
final class SparkEngine implements ClusterEngine {

  /** What Spark 4 says when it gives up a job for one task. */
  private static final Pattern GIVEN_UP =
      Pattern.compile(
          "(?s).*?Task (\\d+) in stage \\S+ failed (\\d+) times, most recent failure: (.*?)(?:\\R.*|$)");

  private static final String LEVEL = "spark.log.level";
  private static final long LOOK_MILLISECONDS = 20;
  private static final long PATIENCE_NANOS = 60_000_000_000L;

  private final SparkConf conf;

  /**
   * @param conf what a person told spark-submit; goes over everything set here
   */
  SparkEngine(SparkConf conf) {
    this.conf = conf.clone();
    this.conf.setIfMissing("spark.app.name", "groovemend batch");
    this.conf.setIfMissing("spark.ui.showConsoleProgress", "false");
    // a page without a password on a port of all networks: only for who asks for it
    this.conf.setIfMissing("spark.ui.enabled", "false");
    // answers are small and not kept
    this.conf.setIfMissing("spark.driver.maxResultSize", "0");
  }

  @Override
  public void run(List<String> parcels, Taker taker) throws ClusterException {
    if (!conf.contains("spark.master")) {
      throw new ClusterException(
          "no Spark master was named; give spark-submit --master, such as spark://host:7077 or"
              + " local[4].",
          null);
    }
    String master = conf.get("spark.master");
    Masters.requireAnswer(master);
    // Spark sets its log up with its first line, and would then tell everything again;
    // a level that a person gave is set by the context too, which says so
    conf.initializeLogIfNecessary(false, true);
    Configurator.setRootLevel(Level.toLevel(conf.get(LEVEL, "ERROR"), Level.ERROR));
    Watcher watcher = new Watcher();
    try (JavaSparkContext spark = new JavaSparkContext(conf)) {
      spark.sc().addSparkListener(watcher);
      int attempts = Masters.attempts(master, conf.getInt("spark.task.maxFailures", 4));
      new Rounds(spark, parcels, attempts, watcher, taker).run();
    } catch (ClusterException e) {
      throw e;
    } catch (Exception e) {
      // Scala throws checked exceptions without saying so
      throw trouble(master, e);
    }
  }

  private static ClusterException trouble(String master, Throwable e) {
    String said = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    return new ClusterException(
        "Spark ("
            + master
            + ") ended before the work was done: "
            + said.lines().findFirst().orElse("").strip()
            + " What was done is kept; the same command again does what is left.",
        e);
  }

  /** The jobs of one run. */
  private static final class Rounds {
    private final JavaSparkContext spark;
    private final List<String> parcels;
    private final int attempts;
    private final Watcher watcher;
    private final Taker taker;
    private final TreeSet<Integer> left = new TreeSet<>();
    private int rounds;
    private long heard = System.nanoTime();

    Rounds(
        JavaSparkContext spark,
        List<String> parcels,
        int attempts,
        Watcher watcher,
        Taker taker) {
      this.spark = spark;
      this.parcels = parcels;
      this.attempts = attempts;
      this.watcher = watcher;
      this.taker = taker;
      for (int i = 0; i < parcels.size(); i++) {
        left.add(i);
      }
    }

    void run() throws ClusterException {
      while (!left.isEmpty() && !taker.stopping()) {
        Round round = new Round(spark, new ArrayList<>(left), parcels, attempts);
        watcher.follow(round, rounds++);
        boolean over = false;
        while (!over) {
          over = round.isOver();
          tell(round);
          if (taker.stopping()) {
            round.cancel();
            return;
          }
          if (!over) {
            sleep();
          }
        }
        Throwable trouble = round.trouble();
        if (trouble != null) {
          giveUp(round, trouble);
        }
      }
    }

    private void sleep() throws ClusterException {
      try {
        Thread.sleep(LOOK_MILLISECONDS);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw trouble(spark.master(), e);
      }
    }

    private void tell(Round round) {
      for (String note = watcher.note(); note != null; note = watcher.note()) {
        taker.note(note);
      }
      for (Round.Event event = round.next(); event != null; event = round.next()) {
        heard = System.nanoTime();
        if (event.answer() == null) {
          taker.begun(event.parcel());
        } else if (left.remove(event.parcel())) {
          taker.take(event.parcel(), event.answer());
        }
      }
      if (watcher.running() == 0 && System.nanoTime() - heard > PATIENCE_NANOS) {
        heard = System.nanoTime();
        taker.waiting(
            "Spark has given no worker yet; still waiting. Does the cluster have workers, and as much"
                + " memory free on one as spark.executor.memory asks for?");
      }
    }

    private void giveUp(Round round, Throwable trouble) throws ClusterException {
      Matcher task = GIVEN_UP.matcher(String.valueOf(trouble.getMessage()));
      if (!task.matches() || spark.sc().isStopped()) {
        throw trouble(spark.master(), trouble);
      }
      int parcel = round.parcel(Integer.parseInt(task.group(1)));
      if (left.remove(parcel)) {
        taker.lost(
            parcel,
            "given up after "
                + task.group(2)
                + " attempts, whose workers were lost ("
                + task.group(3).strip()
                + "); if it is too large for them, give them more memory.");
      }
    }
  }
}
