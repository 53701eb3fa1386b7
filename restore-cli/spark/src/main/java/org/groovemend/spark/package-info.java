/**
 * The command batch on Apache Spark: {@link org.groovemend.spark.SparkEngine} makes one task of
 * each side and hands the answers on as they come. What a side needs, how it is done and where
 * results go is the business of {@link org.groovemend.cli.ClusterBatch}; nothing here knows sound.
 */
package org.groovemend.spark;
