#pragma once

#include <string>
#include <utility>
#include <vector>

namespace gk::test {

/// A program as one document that says everything a document can say; its list of students is the
/// file below. On November 17, 2026 nothing of it has run out.
inline const std::string setupSample = R"({
 "format": "groovekeeper-setup",
 "version": 1,
 "reason": "entered for the school year",
 "program": {
  "name": "Larkmere County School Sealant Team",
  "county": "Larkmere County",
  "phone": "000-555-0142",
  "notation": "universal",
  "supervision": "general",
  "authorizing_dentist": "Dr. Juno Ashby",
  "agreement_until": "2027-08-31",
  "authorization_days": 365,
  "privacy_footing": "County counsel, August 2026: education records",
  "suppress_below": 10,
  "by_school": "all",
  "benchmark_consented_percent": 50,
  "benchmark_screened_percent": 97,
  "benchmark_sealed_percent": null,
  "benchmark_retained_percent": 85,
  "varnish_interval_days": 90,
  "primary_teeth_offered": false,
  "etch_seconds": 30,
  "etch_again_contaminated_seconds": 20,
  "etch_again_adding_seconds": 10,
  "rinse_seconds": 10
 },
 "terms": [
  {"name": "Fall 2026", "formerly": "Autumn 2026", "start": "2026-09-08", "end": "2026-12-18",
   "holidays": ["2026-11-11", "2026-10-12"]}
 ],
 "years": [
  {"name": "2026-27", "formerly": "2026", "kind": "school", "start": "2026-07-01",
   "end": "2027-06-30"}
 ],
 "schools": [
  {"code": "CL", "formerly": "C", "name": "Cobble Lantern Elementary",
   "enrollment": [{"term": "Fall 2026", "grades": {"K": 60, "1": 71, "2": 74, "3": 69, "4": 66,
    "5": 70, "6": 0, "7": 0, "8": 0, "9": 0, "10": 0, "11": 0, "12": 0}}],
   "meal_eligibility": [{"term": "Fall 2026", "percent": 62, "source": "State list, 2025-26"}]}
 ],
 "team": [
  {"initials": "IM", "formerly": "I", "name": "Ines Marrowby", "role": "coordinator",
   "license": "", "license_until": null, "may": ["type", "sign"]},
  {"initials": "OF", "name": "Oriel Fenwhistle", "role": "hygienist", "license": "HY-00417",
   "license_until": "2027-06-30"},
  {"initials": "JA", "name": "Juno Ashby", "role": "dentist", "license": "DN-0093",
   "license_until": "2027-12-31"}
 ],
 "materials": [
  {"material": "Resin Fern", "lot": "RF-2609", "formerly": "RF-2906",
   "kind": "light-cure sealant", "expiry": "2027-04", "manufacturer_seconds": 20,
   "contains": ["acrylate"]},
  {"material": "Blue Gel", "lot": "BG-11", "kind": "etchant", "expiry": "2027-09-30"},
  {"material": "Pine Coat", "lot": "PC-4", "kind": "varnish", "expiry": "2027-10",
   "contains": ["rosin", "fluoride"]}
 ],
 "lights": [
  {"tag": "L-1", "formerly": "L1", "type": "LED", "manufacturer_minimum": 800, "baseline": 1080,
   "meter": "M-1", "baseline_with_sleeve": true, "in_service": true,
   "cure_times": [{"material": "Resin Fern", "seconds": 20}]}
 ],
 "planned_days": [
  {"school": "CL", "date": "2026-11-24", "team": 1, "chairs": 2, "people": "OF, JA",
   "note": "park behind the gym", "canceled": false, "confirmed": false}
 ],
 "rosters": [
  {"file": "cobble.csv", "school": "CL", "term": "Fall 2026", "dates": "month first",
   "before_kindergarten": "hold", "accept_good": false, "ages_confirmed": false,
   "others_confirmed": false}
 ]
}
)";

inline const std::string setupRoster =
    "first,last,birth_date,grade,room,consent,services,signed_on,received_on,history,guardian\n"
    "Mina,Tolliver-Reed,2019-03-04,2,4,yes,all,2026-10-01,2026-10-05,yes,Ada Tolliver\n"
    "Bo,Saltmarsh,2019-05-12,2,4,,,,,,\n";

/// The sample with the first `from` in it as `to`.
inline std::string setupWith(const std::string& from, const std::string& to) {
  auto text = setupSample;
  return text.replace(text.find(from), from.size(), to);
}

/// A document of this alone.
inline std::string setupOf(const std::string& members) {
  return std::string(R"({"format": "groovekeeper-setup", "version": 1)") +
         (members.empty() ? "" : ", ") + members + "}";
}

} // namespace gk::test
