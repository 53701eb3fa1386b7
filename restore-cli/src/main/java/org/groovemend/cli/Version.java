package org.groovemend.cli;

import picocli.CommandLine.IVersionProvider;

/** The version of the running build, from the jar's manifest. */
final class Version implements IVersionProvider {

  static String number() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "development build" : version;
  }

  @Override
  public String[] getVersion() {
    return new String[] {
      "groovemend " + number(),
      "Java " + System.getProperty("java.version") + " on " + System.getProperty("os.name"),
      "Licence: Apache-2.0"
    };
  }
}
