/** JMH benchmarks of the inner loops; whole-process figures come from {@code docs/explanation/performance.py}. */
package org.groovemend.bench;
