# discover.cmake -D program= -D folder= -D shards= -D list= : writes the ctest lines of one folder's
# program. One process runs the cases of a shard of the folder (most folders are one) and writes how
# each ended (tests/support/verdicts.h); each case has a test of its own that looks its line up, and
# shows what the run said when it did not pass. Shards take the cases in turn, so that they last about
# as long as each other.
execute_process(COMMAND ${CMAKE_COMMAND} -E env QT_QPA_PLATFORM=offscreen
                        ${program} --list-test-names-only "~[.]"
                OUTPUT_VARIABLE names)
string(REPLACE ";" "\\;" names "${names}")
string(REGEX REPLACE "\n$" "" names "${names}")
string(REPLACE "\n" ";" names "${names}")
# Ends well even when a case did not: that case's own test says so, and the others keep their word.
set(all [==[out=$0.$1; rm -f "$out.verdicts"
GROOVEKEEPER_VERDICTS="$out.verdicts" "$0" -f "$2" >"$out.log" 2>&1
tail -n 3 "$out.log"; test -s "$out.verdicts"]==])
set(look [==[grep -qxF "passed $2" "$0.$1.verdicts" || { grep -v propagateSizeHints "$0.$1.log" | tail -n 300; exit 1; }]==])

foreach(shard RANGE 1 ${shards})
  set(of_${shard} "")
endforeach()
set(cases "")
set(shard 0)
foreach(name IN LISTS names)
  math(EXPR shard "${shard} % ${shards} + 1")
  # Where Catch reads names, a comma ends one and a quote is no letter.
  string(REGEX REPLACE "([,\"])" "\\\\\\1" plain "${name}")
  string(APPEND of_${shard} "${plain}\n")
  string(APPEND cases "add_test([==[${name}]==] sh -c [===[${look}]===] ${program} ${shard} [==[${name}]==])
set_tests_properties([==[${name}]==] PROPERTIES FIXTURES_REQUIRED ${folder}_${shard} LABELS ${folder}-${shard})\n")
endforeach()

# The long ones begin first, so that none is left to run alone at the end.
set(cost 1)
if(folder MATCHES "^(crash|journeys|office|reports|session|store|ui)$")
  set(cost 100)
endif()
# The long checks whole, as .ci/nightly has them, take hours; ctest asks as it begins.
set(runs "set(longest 1800)
if(DEFINED ENV{GROOVEKEEPER_LONG})
  set(longest 86400)
endif()\n")
foreach(shard RANGE 1 ${shards})
  file(WRITE ${list}.${shard} "${of_${shard}}")
  set(run "${folder}: all its cases in one process")
  if(shards GREATER 1)
    set(run "${folder}: its cases in ${shards} processes, the ${shard}.")
  endif()
  string(APPEND runs "add_test([==[${run}]==] sh -c [===[${all}]===] ${program} ${shard} ${list}.${shard})
set_tests_properties([==[${run}]==] PROPERTIES FIXTURES_SETUP ${folder}_${shard} LABELS ${folder}-${shard} COST ${cost} TIMEOUT \${longest})\n")
endforeach()
file(WRITE ${list} "${runs}${cases}")
