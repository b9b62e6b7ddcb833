# discover.cmake -D program= -D folder= -D list= : writes the ctest lines of one folder's program. One
# process runs all cases of the folder and writes how each ended (tests/support/verdicts.h); each case
# has a test of its own that looks its line up, and shows what the run said when it did not pass.
execute_process(COMMAND ${CMAKE_COMMAND} -E env QT_QPA_PLATFORM=offscreen
                        ${program} --list-test-names-only "~[.]"
                OUTPUT_VARIABLE names)
string(REPLACE ";" "\\;" names "${names}")
string(REGEX REPLACE "\n$" "" names "${names}")
string(REPLACE "\n" ";" names "${names}")
set(run "${folder}: all its cases in one process")
# Ends well even when a case did not: that case's own test says so, and the others keep their word.
set(all [==[rm -f "$0.verdicts"; GROOVEKEEPER_VERDICTS="$0.verdicts" "$0" "~[.]" >"$0.log" 2>&1
tail -n 3 "$0.log"; test -s "$0.verdicts"]==])
set(look [==[grep -qxF "passed $1" "$0.verdicts" || { grep -v propagateSizeHints "$0.log" | tail -n 300; exit 1; }]==])
set(lines "add_test([==[${run}]==] sh -c [===[${all}]===] ${program})
set_tests_properties([==[${run}]==] PROPERTIES FIXTURES_SETUP ${folder} TIMEOUT 1800)\n")
foreach(name IN LISTS names)
  string(APPEND lines "add_test([==[${name}]==] sh -c [===[${look}]===] ${program} [==[${name}]==])
set_tests_properties([==[${name}]==] PROPERTIES FIXTURES_REQUIRED ${folder})\n")
endforeach()
file(WRITE ${list} "${lines}")
