package org.groovemend.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrequencyWeightingTest {

  /** IEC 61672-1, Table 3; its frequencies are nominal for 1000 * 10^(n/10). */
  @ParameterizedTest
  @CsvSource({
    "10,-70.4", "12.5,-63.4", "16,-56.7", "20,-50.5", "25,-44.7", "31.5,-39.4", "40,-34.6",
    "50,-30.2", "63,-26.2", "80,-22.5", "100,-19.1", "125,-16.1", "160,-13.4", "200,-10.9",
    "250,-8.6", "315,-6.6", "400,-4.8", "500,-3.2", "630,-1.9", "800,-0.8", "1000,0.0",
    "1250,0.6", "1600,1.0", "2000,1.2", "2500,1.3", "3150,1.2", "4000,1.0", "5000,0.5",
    "6300,-0.1", "8000,-1.1", "10000,-2.5", "12500,-4.3", "16000,-6.6", "20000,-9.3"
  })
  void aIsTheStandardsTable(double nominal, double printed) {
    double exact = StrictMath.pow(10, Math.round(10 * StrictMath.log10(nominal)) / 10.0);
    assertEquals(printed, FrequencyWeighting.A.decibels(exact), 0.0501);
  }

  /** ITU-R BS.468-4, Table 1, as read in a secondary copy. */
  @ParameterizedTest
  @CsvSource({
    "31.5,-29.9",
    "63,-23.9",
    "100,-19.8",
    "200,-13.8",
    "400,-7.8",
    "800,-1.9",
    "1000,0.0",
    "2000,5.6",
    "3150,9.0",
    "4000,10.5",
    "5000,11.7",
    "6300,12.2",
    "7100,12.0",
    "8000,11.4",
    "9000,10.1",
    "10000,8.1",
    "12500,0.0",
    "14000,-5.3",
    "16000,-11.7",
    "20000,-22.2",
    "31500,-42.7"
  })
  void ituIsTheRecommendationsTable(double hertz, double printed) {
    assertEquals(printed, FrequencyWeighting.ITU_R_468.decibels(hertz), 0.1);
  }
}
