package org.groovemend.stage;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Declares one component of a {@link StageParameters} record to people: the treatment file, its
 * schema and the reference page are made from these declarations, so that they cannot drift from
 * the code.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.RECORD_COMPONENT, ElementType.FIELD})
public @interface Setting {

  /**
   * What it does and why the default is what it is, in one or two sentences without a full stop at
   * the end.
   */
  String why();

  /** Unit in words; empty for a pure number or a choice. */
  String unit() default "";

  double min() default Double.NEGATIVE_INFINITY;

  double max() default Double.POSITIVE_INFINITY;
}
