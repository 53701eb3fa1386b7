package org.groovemend.job.inspect;

/** What was heard of a side, kept for its page; only the page's own classes look into it. */
public final class InspectionMaterial {
  private final SideListening heard;

  InspectionMaterial(SideListening heard) {
    this.heard = heard;
  }

  SideListening heard() {
    return heard;
  }
}
