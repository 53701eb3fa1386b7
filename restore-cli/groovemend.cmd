@echo off
rem Starts groovemend; builds it first when the jar is missing or older than the sources.
rem Unlike the other launcher it does not notice that another start is building: let the first one finish.
rem GROOVEMEND_JAVA_OPTS adds options for the Java machine, e.g. -Xmx2g.
setlocal
set "HERE=%~dp0"
set "JAR=%HERE%target\groovemend.jar"
set "JAVA=java"
if defined JAVA_HOME set "JAVA=%JAVA_HOME%\bin\java"
set "STALE="
if not exist "%JAR%" set "STALE=not built yet"
if not defined STALE (
  for /f %%i in ('powershell -NoProfile -Command "$t=(Get-Item $env:JAR).LastWriteTime; $s=Get-ChildItem -Recurse -File ($env:HERE+'src\main'),($env:HERE+'..\restore-core\src\main'),($env:HERE+'..\pom.xml'),($env:HERE+'pom.xml'),($env:HERE+'..\restore-core\pom.xml'); if ($s | Where-Object { $_.LastWriteTime -gt $t }) { 1 } else { 0 }"') do if "%%i"=="1" set "STALE=older than its sources"
)
if defined STALE (
  echo groovemend: %STALE%, building ^(a minute or two the first time^)... 1>&2
  pushd "%HERE%.."
  call mvn -q -Dmaven.test.skip=true package 1>&2
  if errorlevel 1 (
    echo groovemend: the build failed; the lines above say why. 1>&2
    popd
    exit /b 1
  )
  popd
  copy /b "%JAR%"+,, "%JAR%" >nul
)
"%JAVA%" -Xmx1280m -XX:MaxNewSize=160m -XX:+UseParallelGC -Djava.awt.headless=true %GROOVEMEND_JAVA_OPTS% -jar "%JAR%" %*
exit /b %errorlevel%
