#pragma once

#include "support/samples/setup_sample.h"

namespace gk::test {

/// A document that a reader refuses: why, with which code, and where. `isSeenBySchema`: the
/// published schema refuses it too.
struct BadSetup {
  std::string what;
  std::string json;
  std::string code;
  std::string at; ///< how the detail begins
  bool isSeenBySchema = true;
};

/// Every kind of refusal of a document by itself, before any logbook is looked at.
inline std::vector<BadSetup> badSetups() {
  const std::string document = "input.document";
  std::vector<BadSetup> all{
      {"nothing", "", "input.json", "line 1", false},
      {"no JSON", "format: groovekeeper-setup\n", "input.json", "line 1", false},
      {"cut off", setupSample.substr(0, 900), "input.json", "line ", false},
      {"a comma too many", "{\n\"format\": \"groovekeeper-setup\",\n}", "input.json", "line 3",
       false},
      {"a comment", "{} // made by hand", "input.json", "line 1", false},
      {"bytes of no text", setupOf("\"reason\": \"\xff\""), "input.json", "line 1", false},
      {"two values", setupSample + "{}", "input.json", "line ", false},
      {"nested without end", std::string(200'000, '['), "input.json", "line 1", false},
      {"no object", "[]", document, "the document, line 1"},
      {"another format", R"({"format": "something", "version": 1})", document, "/format"},
      {"no format", R"({"version": 1})", document, "the document"},
      {"a later version", R"({"format": "groovekeeper-setup", "version": 2})", document,
       "/version"},
      {"a version of text", R"({"format": "groovekeeper-setup", "version": "1"})", document,
       "/version"},
      {"an unknown name", setupOf(R"("shools": [])"), document, "the document"},
      {"an unknown name below", setupOf(R"("terms": [{"name": "A", "begin": "2026-09-08"}])"),
       document, "/terms/0"},
      {"a name twice", setupOf(R"("reason": "a", "reason": "b")"), document, "/reason", false},
      {"a name twice below", setupOf(R"("team": [{"initials": "A", "initials": "B"}])"), document,
       "/team/0/initials", false},
      {"a list for an object", setupOf(R"("program": [])"), document, "/program"},
      {"an object for a list", setupOf(R"("terms": {})"), document, "/terms"},
      {"a number for an entry", setupOf(R"("terms": [1])"), document, "/terms/0"},
      {"text for a number", setupOf(R"("program": {"suppress_below": "10"})"), document,
       "/program/suppress_below"},
      {"a broken number", setupOf(R"("program": {"etch_seconds": 20.5})"), document,
       "/program/etch_seconds"},
      {"a number too small", setupOf(R"("program": {"suppress_below": 4})"), "input.number",
       "/program/suppress_below"},
      {"a number too large", setupOf(R"("lights": [{"tag": "L", "baseline": 5001}])"),
       "input.number", "/lights/0/baseline"},
      {"a number beyond all", setupOf(R"("lights": [{"tag": "L", "baseline": 1e300}])"), document,
       "/lights/0/baseline"},
      {"null for text", setupOf(R"("program": {"name": null})"), document, "/program/name"},
      {"null for a date", setupOf(R"("terms": [{"name": "A", "start": null}])"), document,
       "/terms/0/start"},
      {"text for yes", setupOf(R"("program": {"primary_teeth_offered": "no"})"), document,
       "/program/primary_teeth_offered"},
      {"no such day", setupOf(R"("terms": [{"name": "A", "start": "2026-02-30"}])"), "input.date",
       "/terms/0/start"},
      {"a date to be misread", setupOf(R"("terms": [{"name": "A", "start": "3/4/2026"}])"),
       "input.date", "/terms/0/start"},
      {"a holiday that is no date", setupOf(R"("terms": [{"name": "A", "holidays": [5]}])"),
       document, "/terms/0/holidays/0"},
      {"a holiday twice",
       setupOf(R"("terms": [{"name": "A", "holidays": ["2026-10-12", "2026-10-12"]}])"), document,
       "/terms/0/holidays/1"},
      {"an expiry to be misread",
       setupOf(R"("materials": [{"material": "A", "lot": "1", "expiry": "04/27"}])"), "input.date",
       "/materials/0/expiry"},
      {"no such word", setupOf(R"("team": [{"initials": "A", "role": "pilot"}])"), "input.text",
       "/team/0/role"},
      {"a word of another case", setupOf(R"("lights": [{"tag": "L", "type": "led"}])"),
       "input.text", "/lights/0/type"},
      {"a task twice", setupOf(R"("team": [{"initials": "A", "may": ["type", "type"]}])"), document,
       "/team/0/may/1"},
      {"no such task", setupOf(R"("team": [{"initials": "A", "may": ["fly"]}])"), "input.text",
       "/team/0/may/0"},
      {"a hidden character", setupOf(R"("reason": "\u202Eback")"), "input.text", "/reason", false},
      {"a NUL", setupOf(R"("team": [{"initials": "A\u0000B"}])"), "input.text", "/team/0/initials",
       false},
      {"two lines", setupOf(R"("schools": [{"code": "A\nB"}])"), "input.text", "/schools/0/code",
       false},
      {"a text without end", setupOf("\"reason\": \"" + std::string(1001, 'a') + "\""),
       "input.text", "/reason"},
      {"no name", setupOf(R"("terms": [{"start": "2026-09-08"}])"), document, "/terms/0"},
      {"no lot", setupOf(R"("materials": [{"material": "A"}])"), document, "/materials/0"},
      {"no such grade",
       setupOf(R"("schools": [{"code": "A", "enrollment": [{"term": "F", "grades": {"13": 1}}]}])"),
       document, "/schools/0/enrollment/0/grades"},
      {"a count below zero",
       setupOf(R"("schools": [{"code": "A", "enrollment": [{"term": "F", "grades": {"2": -1}}]}])"),
       "input.number", "/schools/0/enrollment/0/grades/2"},
      {"a grade twice", setupOf(R"("schools": [{"code": "A", "enrollment": [{"term": "F",
        "grades": {"2": 1, "2": 2}}]}])"),
       document, "/schools/0/enrollment/0/grades/2", false},
      {"enrollment of no term",
       setupOf(R"("schools": [{"code": "A", "enrollment": [{"grades": {}}]}])"), document,
       "/schools/0/enrollment/0"},
      {"a term counted twice", setupOf(R"("schools": [{"code": "A", "enrollment": [
        {"term": "F", "grades": {}}, {"term": "F", "grades": {}}]}])"),
       document, "/schools/0/enrollment/1", false},
      {"a share over all", setupOf(R"("schools": [{"code": "A", "meal_eligibility": [
        {"term": "F", "percent": 101, "source": "s"}]}])"),
       "input.number", "/schools/0/meal_eligibility/0/percent"},
      {"a share of nobody", setupOf(R"("schools": [{"code": "A", "meal_eligibility": [
        {"term": "F", "percent": 10}]}])"),
       document, "/schools/0/meal_eligibility/0"},
      {"a cure time of none", setupOf(R"("lights": [{"tag": "L", "cure_times": [
        {"material": "A", "seconds": 0}]}])"),
       "input.number", "/lights/0/cure_times/0/seconds"},
      {"a cure time twice", setupOf(R"("lights": [{"tag": "L", "cure_times": [
        {"material": "A", "seconds": 20}, {"material": "A", "seconds": 30}]}])"),
       document, "/lights/0/cure_times/1", false},
      {"a tenth team", setupOf(R"("planned_days": [{"school": "A", "date": "2026-11-24",
        "team": 10}])"),
       "input.number", "/planned_days/0/team"},
      {"a day twice", setupOf(R"("planned_days": [{"school": "A", "date": "2026-11-24"},
        {"school": "A", "date": "2026-11-24", "team": 1}])"),
       document, "/planned_days/1", false},
      {"a list of no file", setupOf(R"("rosters": [{"school": "A", "term": "F"}])"), document,
       "/rosters/0"},
      {"a list twice", setupOf(R"("rosters": [{"file": "a", "school": "A", "term": "F"},
        {"file": "a", "school": "A", "term": "F"}])"),
       document, "/rosters/1", false},
  };
  for (const auto& [list, one] : {std::pair("schools", R"({"code": "A"})"),
                                  {"terms", R"({"name": "A"})"},
                                  {"years", R"({"name": "A"})"},
                                  {"team", R"({"initials": "A"})"},
                                  {"materials", R"({"material": "A", "lot": "1"})"},
                                  {"lights", R"({"tag": "A"})"}})
    all.push_back({std::string("two entries of one of ") + list,
                   setupOf(std::string("\"") + list + "\": [" + one + ", " + one + "]"), document,
                   std::string("/") + list + "/1", false});
  return all;
}

} // namespace gk::test
