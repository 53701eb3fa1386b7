package org.groovemend.measure;

/**
 * Neumaier's variant of compensated summation (ZAMM 54, 1974; from memory): the error does not grow
 * with the terms.
 */
public final class CompensatedSum {

  private double sum;
  private double lost;

  public void add(double term) {
    double next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? (sum - next) + term : (term - next) + sum;
    sum = next;
  }

  public double value() {
    return sum + lost;
  }
}
