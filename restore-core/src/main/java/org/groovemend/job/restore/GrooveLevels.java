package org.groovemend.job.restore;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.groovemend.measure.Decibels;
import org.groovemend.measure.FrequencyWeighting;
import org.groovemend.surfacenoise.GrooveNoise;

/** Levels of the bare groove as numbers for machines and tables. */
public final class GrooveLevels {

  private GrooveLevels() {}

  /** Stretch, levels of each channel and third octaves, by name. */
  public static Map<String, Object> asMap(GrooveNoise sound) {
    Map<String, Object> result = new LinkedHashMap<>();
    double rate = sound.sampleRateHz();
    result.put("fromSeconds", sound.startFrame() / rate);
    result.put("toSeconds", sound.endFrame() / rate);
    result.put("spectra", sound.framesUsed());
    result.put("spectraRejected", sound.framesRejected());
    result.put("uncertaintyDb", sound.uncertaintyDb());
    List<Map<String, Object>> levels = new ArrayList<>();
    for (int c = 0; c < sound.power().length; c++) {
      Map<String, Object> level = new LinkedHashMap<>();
      level.put("dbfs", sound.levelDbfs(c, FrequencyWeighting.NONE::decibels));
      level.put("dbfsAWeighted", sound.levelDbfs(c, FrequencyWeighting.A::decibels));
      level.put("dbfs468WeightedRms", sound.levelDbfs(c, FrequencyWeighting.ITU_R_468::decibels));
      levels.add(level);
    }
    result.put("channels", levels);
    result.put("thirdOctaves", sound.thirdOctaves());
    return result;
  }

  /** Level of the mean power of the channels in a band. */
  public static double meanDbfs(GrooveNoise.Band band) {
    double power = 0;
    for (double dbfs : band.levelDbfs()) {
      power += StrictMath.pow(10, dbfs / 10) / band.levelDbfs().size();
    }
    return Decibels.ofPower(power);
  }
}
