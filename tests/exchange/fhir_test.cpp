#include "exchange/extract/fhir.h"

#include "exchange/sample.h"

#include <catch2/catch.hpp>
#include <functional>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

using namespace gk;
using gk::test::SampleExport;
using Json = nlohmann::json;

namespace {

Json bundleOf(const SampleExport& sample, const exchange::People& people) {
  std::ostringstream out;
  const auto now =
      base::atLocal(test::dateOf("2026-11-17"), std::chrono::hours(15), -std::chrono::hours(5));
  exchange::writeFhir(sample.records, people, now, out);
  return Json::parse(out.str());
}

std::vector<Json> of(const Json& bundle, const std::string& type) {
  std::vector<Json> out;
  for (const auto& entry : bundle.at("entry"))
    if (entry.at("resource").at("resourceType") == type) out.push_back(entry.at("resource"));
  return out;
}

} // namespace

TEST_CASE("While the vault is locked a bundle speaks of children by number alone") {
  const SampleExport sample;
  const auto bundle = bundleOf(sample, {});
  CHECK(of(bundle, "Patient").empty());
  const auto sealants = of(bundle, "Procedure");
  REQUIRE(sealants.size() == 2);
  CHECK_FALSE(sealants[0].at("subject").contains("reference"));
  CHECK(sealants[0].at("subject").at("identifier").at("value") == "1043-0");
}

TEST_CASE("Only children whose form allows sharing are named") {
  const SampleExport sample;
  const auto bundle = bundleOf(sample, sample.people);
  const auto patients = of(bundle, "Patient");
  REQUIRE(patients.size() == 1);
  CHECK(patients[0].at("name")[0].at("family") == "Tolliver-Reed");
  CHECK(patients[0].at("birthDate") == "2019-03-04");
  CHECK(bundle.dump().find("Brackwater") == std::string::npos);
  CHECK(bundle.dump().find("Secret") == std::string::npos);
}

TEST_CASE("A dentist's word is a request for service that names the teeth and its last day") {
  SampleExport sample;
  sample.records.authorizations.back().value.withdrawn = true;
  const auto requests = of(bundleOf(sample, sample.people), "ServiceRequest");
  REQUIRE(requests.size() == 2);
  CHECK(requests[0].at("status") == "active");
  CHECK(requests[1].at("status") == "revoked");
  CHECK(requests[0].at("intent") == "order");
  CHECK(requests[0].at("occurrencePeriod") ==
        Json({{"start", "2026-11-10"}, {"end", "2027-11-09"}}));
  CHECK(requests[0].at("bodySite")[0].at("coding")[0].at("code") == "16");
  CHECK(requests[0].at("note")[0].at("text") == "By a dentist: exam at school");
  CHECK_FALSE(requests[0].contains("requester")); // staff stays in the book
}

TEST_CASE("Every reference within a bundle leads to one of its entries, each address once") {
  const SampleExport sample;
  const auto bundle = bundleOf(sample, sample.people);
  std::set<std::string> addresses;
  for (const auto& entry : bundle.at("entry"))
    CHECK(addresses.insert(entry.at("fullUrl").get<std::string>()).second);
  int references = 0;
  const std::function<void(const Json&)> look = [&](const Json& at) {
    if (at.is_object() && at.contains("reference")) {
      ++references;
      CHECK(addresses.contains(at.at("reference").get<std::string>()));
    }
    if (at.is_structured())
      for (const auto& part : at)
        look(part);
  };
  look(bundle);
  CHECK(references > 4);
}

TEST_CASE("A sealant is a procedure on a tooth, stopped when it was not completed") {
  SampleExport sample;
  sample.records.placements[1].value.attempt = chairside::Attempt::stoppedBeforeCure;
  const auto sealants = of(bundleOf(sample, {}), "Procedure");
  CHECK(sealants[0].at("status") == "completed");
  CHECK(sealants[0].at("bodySite")[0].at("coding")[0].at("code") == "16");
  CHECK(sealants[0].at("performedDateTime") == "2026-11-17");
  CHECK(sealants[1].at("status") == "stopped");
  CHECK(bundleOf(sample, {}).at("timestamp") == "2026-11-17T15:00:00-05:00");
}

TEST_CASE("A retention check is an observation of the sealant it looked at") {
  const SampleExport sample;
  for (const auto& observation : of(bundleOf(sample, {}), "Observation")) {
    if (!observation.contains("focus")) continue;
    CHECK(observation.at("valueCodeableConcept").at("text") == "whole");
    return;
  }
  FAIL("no check");
}
