package org.groovemend.click;

/** A place to be filled: one or several overlapping accepted candidates of one channel. */
record Gap(long start, long end, Candidate strongest, double statistic) {
  int frames() {
    return (int) (end - start);
  }
}
