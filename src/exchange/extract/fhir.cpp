#include "exchange/extract/fhir.h"

#include "base/contract.h"
#include "followup/display_names.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>

namespace gk::exchange {

namespace {

using Json = nlohmann::ordered_json;

/// A name, not an address: the domain is reserved and leads nowhere (RFC 2606).
std::string system(std::string_view name) {
  return "https://groovekeeper.example/fhir/" + std::string(name);
}

Json words(std::string_view text) {
  return {{"text", std::string(text)}};
}

/// A word of the data dictionary as a code of our own system.
template <class E>
Json coded(std::string_view list, E value) {
  const std::string word(base::nameOf(value));
  return {{"coding", Json::array({{{"system", system(list)}, {"code", word}}})}, {"text", word}};
}

/// ISO 3950:2016, two digits.
Json toothSite(const dentition::Tooth& tooth, dentition::SurfaceSet surfaces) {
  auto text = tooth.words();
  if (!surfaces.isEmpty()) text += ", " + dentition::words(surfaces);
  return {{"coding", Json::array({{{"system", system("iso-3950")},
                                   {"code", std::to_string(tooth.iso())},
                                   {"display", tooth.words()}}})},
          {"text", std::move(text)}};
}

std::string two(long value) {
  return (value < 10 ? "0" : "") + std::to_string(value);
}

/// "2026-11-17T09:00:00-05:00".
std::string instant(base::LocalInstant at) {
  const long minutes = at.timeOfDay().count();
  const long seconds = at.at.utc.count() / 1000 % 60;
  const long offset = at.offset.count();
  const long away = offset < 0 ? -offset : offset;
  return at.date().iso() + "T" + two(minutes / 60) + ":" + two(minutes % 60) + ":" + two(seconds) +
         (offset < 0 ? "-" : "+") + two(away / 60) + ":" + two(away % 60);
}

template <class Tag>
std::string urn(const base::Id<Tag>& id) {
  return "urn:uuid:" + id.text();
}

template <class Tag>
Json entry(const base::Id<Tag>& id, Json resource) {
  return {{"fullUrl", urn(id)}, {"resource", std::move(resource)}};
}

std::string statusOf(roster::ConsentState state) {
  switch (state) {
  case roster::ConsentState::yes:
  case roster::ConsentState::yesWithLimits:
    return "active";
  case roster::ConsentState::no:
    return "rejected";
  case roster::ConsentState::withdrawn:
    return "inactive";
  case roster::ConsentState::notReturned:
  case roster::ConsentState::incomplete:
  case roster::ConsentState::onHold:
    return "proposed";
  }
  base::fail("no such state of a consent");
}

std::string genderOf(dentition::Sex sex) {
  return sex == dentition::Sex::notStated ? "unknown" : std::string(base::nameOf(sex));
}

Json component(std::string_view what, Json value) {
  return {{"code", words(what)}, {"valueCodeableConcept", std::move(value)}};
}

class Day {
 public:
  Day(const Records& records, const People& people) : records_(records), day_(records.days.at(0)) {
    for (const auto* rows : {&records.earlierDays, &records.days})
      for (const auto& day : *rows)
        dates_.insert_or_assign(day.id, day.value.date);
    std::map<roster::ChildId, Rows<roster::Consent>> forms;
    for (const auto& row : records.consents)
      forms[row.value.child].push_back(row);
    for (const auto& row : records.children) {
      children_.emplace(row.id, &row);
      const auto person = people.find(row.id);
      if (person != people.end() && mayShare(forms[row.id])) named_.emplace(row.id, person->second);
    }
  }

  [[nodiscard]] Json entries() const {
    auto out = Json::array();
    for (const auto& row : records_.children)
      if (named_.contains(row.id)) out.push_back(entry(row.id, patient(row)));
    for (const auto& row : records_.consents)
      if (row.value.term == records_.termId && children_.contains(row.value.child) &&
          row.value.state != roster::ConsentState::notReturned)
        out.push_back(entry(row.id, consent(row)));
    for (const auto& row : records_.authorizations)
      if (children_.contains(row.value.child)) out.push_back(entry(row.id, authorization(row)));
    for (const auto& row : records_.screenings)
      if (isHere(row.value)) addScreening(out, row);
    std::set<chairside::PlacementId> checked;
    for (const auto& row : records_.checks)
      if (isHere(row.value)) checked.insert(row.value.placement);
    for (const auto& row : records_.placements)
      if (isHere(row.value) || checked.contains(row.id)) out.push_back(entry(row.id, sealant(row)));
    for (const auto& row : records_.varnishes)
      if (isHere(row.value)) out.push_back(entry(row.id, varnish(row)));
    for (const auto& row : records_.checks)
      if (isHere(row.value)) out.push_back(entry(row.id, check(row)));
    return out;
  }

 private:
  template <class T>
  [[nodiscard]] bool isHere(const T& record) const {
    return record.day == day_.id && children_.contains(record.child);
  }

  [[nodiscard]] bool mayShare(const Rows<roster::Consent>& forms) const {
    const auto allows = [&](roster::Service service) {
      return roster::standing(forms, service, day_.value.date).allows;
    };
    return allows(roster::Service::shareWithDentist) || allows(roster::Service::shareWithNurse);
  }

  [[nodiscard]] Json number(const roster::ChildId& child) const {
    return {{"system", system("child-number")}, {"value", children_.at(child)->value.number}};
  }

  [[nodiscard]] Json subject(const roster::ChildId& child) const {
    if (named_.contains(child)) return {{"reference", urn(child)}, {"type", "Patient"}};
    return {{"type", "Patient"}, {"identifier", number(child)}};
  }

  [[nodiscard]] Json patient(const base::Recorded<roster::Child>& row) const {
    const auto& person = named_.at(row.id);
    Json name;
    if (!person.family.empty()) name["family"] = person.family;
    if (!person.given.empty()) name["given"] = Json::array({person.given});
    return {{"resourceType", "Patient"},
            {"id", row.id.text()},
            {"identifier", Json::array({number(row.id)})},
            {"name", Json::array({std::move(name)})},
            {"gender", genderOf(row.value.sex)},
            {"birthDate", person.birth.iso()}};
  }

  [[nodiscard]] Json consent(const base::Recorded<roster::Consent>& row) const {
    const auto& form = row.value;
    Json out{
        {"resourceType", "Consent"},
        {"id", row.id.text()},
        {"status", statusOf(form.state)},
        {"scope",
         {{"coding", Json::array({{{"system", "http://terminology.hl7.org/CodeSystem/consentscope"},
                                   {"code", "treatment"}}})}}},
        {"category", Json::array({words("Consent to dental care at school")})},
        {"patient", subject(form.child)}};
    if (form.signedOn) out["dateTime"] = form.signedOn->iso();
    out["policyRule"] = words("The program's consent form; what it does not allow is refused");
    if (form.allowed.isEmpty()) return out;
    auto services = Json::array();
    for (const auto service : form.allowed.values())
      services.push_back(coded("service", service));
    out["provision"] = {{"type", "permit"}, {"code", std::move(services)}};
    return out;
  }

  /// R4's "order" is a request and authorization for action. Who the dentist is stays in the book,
  /// as with all staff.
  [[nodiscard]] Json authorization(const base::Recorded<chairside::Authorization>& row) const {
    const auto& one = row.value;
    auto sites = Json::array();
    for (const auto& tooth : one.teeth)
      sites.push_back(toothSite(tooth.tooth, tooth.surfaces));
    return {
        {"resourceType", "ServiceRequest"},
        {"id", row.id.text()},
        {"status", one.withdrawn ? "revoked" : "active"},
        {"intent", "order"},
        {"code", words("Dental sealant, as a dentist authorized")},
        {"subject", subject(one.child)},
        {"occurrencePeriod", {{"start", one.on.iso()}, {"end", one.until.iso()}}},
        {"authoredOn", one.on.iso()},
        {"bodySite", std::move(sites)},
        {"note", Json::array({words("By a dentist: " + std::string(base::displayName(one.how)))})}};
  }

  [[nodiscard]] Json observation(const std::string& id, std::string_view what,
                                 const roster::ChildId& child) const {
    return {{"resourceType", "Observation"},
            {"id", id},
            {"status", "final"},
            {"code", words(what)},
            {"subject", subject(child)},
            {"effectiveDateTime", day_.value.date.iso()}};
  }

  /// One for the child and one for each tooth, which has no identity of its own in the book.
  void addScreening(Json& out, const base::Recorded<chairside::Screening>& row) const {
    const auto& one = row.value;
    auto whole =
        observation(row.id.text(), "Oral health screening at school; no examination", one.child);
    whole["component"] =
        Json::array({component("Untreated decay", coded("yes-no", one.untreatedDecay)),
                     component("Treated decay", coded("yes-no", one.treatedDecay)),
                     component("Urgency of need for care", coded("urgency", one.urgency))});
    out.push_back(entry(row.id, std::move(whole)));
    for (const auto& tooth : one.teeth) {
      const auto id = row.id.text() + "." + std::to_string(tooth.tooth.iso());
      auto part = observation(id, "Tooth at an oral health screening", one.child);
      part["bodySite"] = toothSite(tooth.tooth, {});
      part["component"] =
          Json::array({component("Presence", coded("presence", tooth.presence)),
                       component("Occlusal surface", coded("condition", tooth.occlusal.condition)),
                       component("Buccal surface", coded("condition", tooth.buccal.condition)),
                       component("Lingual surface", coded("condition", tooth.lingual.condition)),
                       component("Decision", coded("decision", tooth.decision))});
      out.push_back({{"fullUrl", system("observation/" + id)}, {"resource", std::move(part)}});
    }
  }

  [[nodiscard]] Json procedure(const std::string& id, bool isComplete, std::string_view what,
                               const roster::ChildId& child, const roster::DayId& day) const {
    Json out{{"resourceType", "Procedure"},
             {"id", id},
             {"status", isComplete ? "completed" : "stopped"},
             {"code", words(what)},
             {"subject", subject(child)}};
    if (const auto at = dates_.find(day); at != dates_.end())
      out["performedDateTime"] = at->second.iso();
    return out;
  }

  [[nodiscard]] Json sealant(const base::Recorded<chairside::Placement>& row) const {
    const auto& one = row.value;
    auto out = procedure(row.id.text(), one.attempt == chairside::Attempt::complete,
                         "Dental sealant, " + std::string(base::displayName(one.type)), one.child,
                         one.day);
    out["bodySite"] = Json::array({toothSite(one.tooth, one.surfaces)});
    if (one.attempt != chairside::Attempt::complete)
      out["statusReason"] = coded("attempt", one.attempt);
    addLot(out, one.sealant);
    return out;
  }

  [[nodiscard]] Json varnish(const base::Recorded<chairside::Varnish>& row) const {
    auto out = procedure(row.id.text(), true, "Fluoride varnish", row.value.child, row.value.day);
    addLot(out, row.value.lot);
    return out;
  }

  void addLot(Json& procedure, const kit::LotId& id) const {
    const auto lot = std::ranges::find(records_.lots, id, &base::Recorded<kit::Lot>::id);
    if (lot != records_.lots.end())
      procedure["usedCode"] = Json::array({words(kit::shown(lot->value))});
  }

  [[nodiscard]] Json check(const base::Recorded<followup::RetentionCheck>& row) const {
    const auto& one = row.value;
    auto out = observation(row.id.text(), "Retention check of a dental sealant", one.child);
    const auto placed = std::ranges::find(records_.placements, one.placement,
                                          &base::Recorded<chairside::Placement>::id);
    if (placed != records_.placements.end()) {
      out["focus"] = Json::array({{{"reference", urn(one.placement)}, {"type", "Procedure"}}});
      out["bodySite"] = toothSite(placed->value.tooth, placed->value.surfaces);
    }
    out["valueCodeableConcept"] = coded("held", one.tooth());
    out["component"] = Json::array({component("Tooth health", coded("health", one.health)),
                                    component("Why not judged", coded("why-not", one.why))});
    return out;
  }

  const Records& records_;
  const base::Recorded<roster::ClinicDay>& day_;
  std::map<roster::DayId, base::Date> dates_;
  std::map<roster::ChildId, const base::Recorded<roster::Child>*> children_;
  std::map<roster::ChildId, Person> named_;
};

} // namespace

void writeFhir(const Records& records, const People& people, base::LocalInstant now,
               std::ostream& out) {
  base::require(records.days.size() == 1, "a bundle of anything but one day");
  Json bundle{{"resourceType", "Bundle"}, {"type", "collection"}, {"timestamp", instant(now)}};
  auto entries = Day(records, people).entries();
  if (!entries.empty()) bundle["entry"] = std::move(entries); // R4 knows no empty list
  out << bundle.dump(1) << '\n';
}

} // namespace gk::exchange
