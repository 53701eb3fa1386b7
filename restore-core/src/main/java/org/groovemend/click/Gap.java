package org.groovemend.click;

/**
 * A place to be filled: one or several overlapping accepted candidates of one channel.
 *
 * @param start first frame
 * @param end one past the last
 * @param strongest of the candidates
 * @param threshold what its log odds had to exceed
 */
record Gap(long start, long end, Candidate strongest, double threshold) {
  int frames() {
    return (int) (end - start);
  }

  double statistic() {
    return strongest.logOdds();
  }
}
