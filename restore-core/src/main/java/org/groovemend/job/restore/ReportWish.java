package org.groovemend.job.restore;

/** What page is to be made of a restored side. */
public enum ReportWish {
  /** None: drawing it takes longer than treating a very short side. */
  NONE,
  /** The page without sound: some hundred kilobytes. */
  WITHOUT_CLIPS,
  /** The page with clips to listen to: up to about 15 megabytes. */
  WITH_CLIPS
}
