package org.groovemend.cli;

import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.util.Locale;
import org.groovemend.stage.Setting;
import org.groovemend.stage.StageParameters;

/** Reads settings and their declarations off a parameter record. */
final class Settings {

  private Settings() {}

  static Setting declaration(RecordComponent component) {
    Setting setting = component.getAnnotation(Setting.class);
    if (setting == null) {
      throw new IllegalStateException(
          component.getDeclaringRecord().getSimpleName()
              + "."
              + component.getName()
              + " is not declared");
    }
    return setting;
  }

  static Object value(RecordComponent component, StageParameters parameters) {
    try {
      component.getAccessor().setAccessible(true);
      return component.getAccessor().invoke(parameters);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  static String text(Object value) {
    if (value instanceof Double number) {
      return number(number);
    }
    return value instanceof Enum<?> constant
        ? constant.name().toLowerCase(Locale.ROOT)
        : String.valueOf(value);
  }

  /** A number without exponent and without a needless ".0". */
  static String number(double value) {
    if (value == Math.rint(value) && Math.abs(value) < 1e15) {
      return Long.toString((long) value);
    }
    return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
  }
}
