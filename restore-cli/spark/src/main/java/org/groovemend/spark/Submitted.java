package org.groovemend.spark;

import org.apache.spark.SparkConf;
import org.groovemend.cli.ClusterBatch;

/** The command with the engine; apart from {@link Main}, which must load without Spark. */
final class Submitted {

  static final String PROGRAM = "spark-submit groovemend-spark.jar";

  private Submitted() {}

  static int run(String... args) {
    return ClusterBatch.run(PROGRAM, new SparkEngine(new SparkConf()), args);
  }
}
