#include "exchange/extract/extract.h"

#include "exchange/extract/pseudonyms.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>

namespace gk::exchange {

namespace {

using Json = nlohmann::ordered_json;

template <class E>
std::string word(E value) {
  return std::string(base::nameOf(value));
}

template <class E>
Json list(base::EnumSet<E> set) {
  auto out = Json::array();
  for (const E value : set.values())
    out.push_back(word(value));
  return out;
}

std::string month(roster::BirthMonth birth) {
  return std::to_string(birth.year) + (birth.month < 10 ? "-0" : "-") + std::to_string(birth.month);
}

Json seconds(const std::optional<base::Milliseconds>& time) {
  if (!time) return nullptr;
  return static_cast<double>(time->count()) / 1000;
}

Json surface(const chairside::SurfaceFinding& finding) {
  return {{"condition", word(finding.condition)}, {"sealed_by", word(finding.origin)}};
}

class Extract {
 public:
  Extract(const Records& records, base::Random& random) : records_(records), alias_(random) {
    for (const auto& day : records.days)
      days_.insert(day.id);
    for (const auto* rows : {&records.days, &records.earlierDays})
      for (const auto& day : *rows)
        dates_.emplace(day.id, day.value.date);
    group(records.consents, forms_);
    for (const auto& [child, forms] : forms_)
      for (const auto* form : forms)
        if (form->value.term == records.termId) consents_[child].push_back(form);
    group(records.authorizations, authorizations_);
    groupOfDays(records.screenings, screenings_);
    group(records.placements, placements_);
    groupOfDays(records.varnishes, varnishes_);
    groupOfDays(records.outcomes, outcomes_);
    groupOfDays(records.checks, checks_);
    groupOfDays(records.referrals, referrals_);
  }

  [[nodiscard]] Json head(Scope scope) const {
    return {{"format", "groovekeeper-extract"},
            {"version", 2},
            {"scope", word(scope)},
            {"units", {{"time", "s"}, {"irradiance", "mW/cm2"}, {"tooth", "ISO 3950:2016"}}},
            {"program", records_.program},
            {"county", records_.county},
            {"term",
             {{"name", records_.term.name},
              {"start", records_.term.start.iso()},
              {"end", records_.term.end.iso()}}},
            {"children_left_out", leftOut()},
            {"schools", sorted(records_.schools, [&](const auto& row) { return school(row); })},
            {"days", sorted(records_.days, [&](const auto& row) { return day(row); })},
            {"lots", sorted(records_.lots, [&](const auto& row) { return lot(row); })},
            {"lights", sorted(records_.lights, [&](const auto& row) { return light(row); })},
            {"staff", sorted(records_.members, [&](const auto& row) { return member(row); })}};
  }

  /// By pseudonym; a child without any record here is left out.
  [[nodiscard]] std::map<std::string, const base::Recorded<roster::Child>*> children() const {
    std::map<std::string, const base::Recorded<roster::Child>*> out;
    for (const auto& row : records_.children)
      if (hasRecord(row.id) && mayReport(row.id)) out[name(row.id)] = &row;
    return out;
  }

  [[nodiscard]] Json child(const base::Recorded<roster::Child>& row) const {
    const auto each = [&](const auto& groups, auto make) {
      auto out = Json::array();
      if (const auto at = groups.find(row.id); at != groups.end())
        for (const auto* one : at->second)
          out.push_back(make(*one));
      return out;
    };
    return {
        {"id", name(row.id)},
        {"birth_month", month(row.value.birth)},
        {"sex", word(row.value.sex)},
        {"school", name(row.value.school)},
        {"grade", row.value.grade},
        {"consents", each(consents_, [&](const auto& one) { return consent(one.value); })},
        {"authorizations",
         each(authorizations_, [&](const auto& one) { return authorization(one.value); })},
        {"screenings", each(screenings_, [&](const auto& one) { return screening(one.value); })},
        {"placements", each(placements_, [&](const auto& one) { return placement(one); })},
        {"varnishes", each(varnishes_, [&](const auto& one) { return varnish(one.value); })},
        {"checks", each(checks_, [&](const auto& one) { return check(one.value); })},
        {"referrals", each(referrals_, [&](const auto& one) { return referral(one.value); })},
        {"outcomes", each(outcomes_, [&](const auto& one) { return outcome(one.value); })}};
  }

 private:
  template <class T>
  using Groups = std::map<roster::ChildId, std::vector<const base::Recorded<T>*>>;

  [[nodiscard]] bool hasRecord(const roster::ChildId& child) const {
    return consents_.contains(child) || screenings_.contains(child) || outcomes_.contains(child) ||
           checks_.contains(child);
  }

  [[nodiscard]] bool mayReport(const roster::ChildId& child) const {
    const auto at = forms_.find(child);
    if (at == forms_.end()) return false;
    Rows<roster::Consent> forms;
    for (const auto* form : at->second)
      forms.push_back(*form);
    return std::ranges::any_of(records_.days, [&](const auto& day) {
      return roster::standing(forms, roster::Service::dataForReports, day.value.date).allows;
    });
  }

  [[nodiscard]] int leftOut() const {
    return static_cast<int>(std::ranges::count_if(records_.children, [&](const auto& row) {
      return hasRecord(row.id) && !mayReport(row.id);
    }));
  }

  template <class T>
  static void group(const Rows<T>& rows, Groups<T>& into) {
    for (const auto& row : rows)
      into[row.value.child].push_back(&row);
    for (auto& [child, own] : into)
      std::ranges::sort(own, {}, [](const auto* row) { return row->stamp.entry; });
  }

  template <class T>
  void groupOfDays(const Rows<T>& rows, Groups<T>& into) const {
    group(rows, into);
    for (auto& [child, own] : into)
      std::erase_if(own, [&](const auto* row) { return !days_.contains(row->value.day); });
    std::erase_if(into, [](const auto& one) { return one.second.empty(); });
  }

  template <class Tag>
  [[nodiscard]] std::string name(const base::Id<Tag>& id) const {
    return alias_.of(id.uuid());
  }
  template <class Tag>
  [[nodiscard]] Json name(const std::optional<base::Id<Tag>>& id) const {
    if (!id) return nullptr;
    return name(*id);
  }

  template <class T, class Make>
  static Json sorted(const Rows<T>& rows, Make make) {
    auto out = Json::array();
    for (const auto& row : rows)
      out.push_back(make(row));
    std::sort(out.begin(), out.end(), [](const Json& one, const Json& other) {
      return one.at("id").template get<std::string>() < other.at("id").template get<std::string>();
    });
    return out;
  }

  [[nodiscard]] Json school(const base::Recorded<roster::School>& row) const {
    return {{"id", name(row.id)}, {"name", row.value.name}, {"code", row.value.code}};
  }
  [[nodiscard]] Json day(const base::Recorded<roster::ClinicDay>& row) const {
    return {{"id", name(row.id)},
            {"school", name(row.value.school)},
            {"date", row.value.date.iso()},
            {"team", row.value.team},
            {"cancelled", row.value.canceled}};
  }
  [[nodiscard]] Json lot(const base::Recorded<kit::Lot>& row) const {
    return {{"id", name(row.id)},
            {"kind", word(row.value.kind)},
            {"material", row.value.material},
            {"lot", row.value.lot},
            {"expiry", row.value.expiry.iso()},
            {"makers_time", row.value.makersTime.count()},
            {"quarantined", row.value.quarantined}};
  }
  [[nodiscard]] Json light(const base::Recorded<kit::Light>& row) const {
    return {{"id", name(row.id)},
            {"tag", row.value.tag},
            {"type", word(row.value.type)},
            {"baseline", row.value.baseline.value}};
  }
  [[nodiscard]] Json member(const base::Recorded<roster::Member>& row) const {
    return {{"id", name(row.id)}, {"role", word(row.value.role)}};
  }

  [[nodiscard]] Json date(const roster::DayId& day) const {
    const auto at = dates_.find(day);
    if (at == dates_.end()) return nullptr;
    return at->second.iso();
  }

  static Json consent(const roster::Consent& form) {
    return {{"state", word(form.state)}, {"services", list(form.allowed)}};
  }

  [[nodiscard]] Json authorization(const chairside::Authorization& one) const {
    auto teeth = Json::array();
    for (const auto& named : one.teeth)
      teeth.push_back({{"tooth", named.tooth.iso()}, {"surfaces", list(named.surfaces)}});
    return {{"dentist", name(one.dentist)}, {"how", word(one.how)},
            {"on", one.on.iso()},           {"until", one.until.iso()},
            {"withdrawn", one.withdrawn},   {"teeth", std::move(teeth)}};
  }

  [[nodiscard]] Json screening(const chairside::Screening& one) const {
    auto teeth = Json::array();
    for (const auto& tooth : one.teeth)
      teeth.push_back({{"tooth", tooth.tooth.iso()},
                       {"presence", word(tooth.presence)},
                       {"occlusal", surface(tooth.occlusal)},
                       {"buccal", surface(tooth.buccal)},
                       {"lingual", surface(tooth.lingual)},
                       {"enamel", word(tooth.enamel)},
                       {"soft_tissue", word(tooth.softTissue)},
                       {"decision", word(tooth.decision)},
                       {"to_seal", list(tooth.toSeal)},
                       {"revisit", tooth.revisit}});
    return {{"day", name(one.day)},
            {"untreated_decay", word(one.untreatedDecay)},
            {"treated_decay", word(one.treatedDecay)},
            {"urgency", word(one.urgency)},
            {"urgent_reason", word(one.urgentReason)},
            {"teeth", std::move(teeth)}};
  }

  [[nodiscard]] Json placement(const base::Recorded<chairside::Placement>& row) const {
    const auto& one = row.value;
    return {{"id", name(row.id)},
            {"day", name(one.day)},
            {"date", date(one.day)},
            {"tooth", one.tooth.iso()},
            {"surfaces", list(one.surfaces)},
            {"type", word(one.type)},
            {"attempt", word(one.attempt)},
            {"placed_by", name(one.placedBy)},
            {"assistant", name(one.assistant)},
            {"isolation", word(one.isolation)},
            {"four_handed", one.fourHanded},
            {"sealant", name(one.sealant)},
            {"etchant", name(one.etchant)},
            {"light", name(one.light)},
            {"etched", seconds(one.etched)},
            {"cured", seconds(one.cured)},
            {"cures", one.cures},
            {"interrupted_cures", one.interruptedCures},
            {"wet_events", one.wetEvents},
            {"etches", one.etches},
            {"frosty", one.frosty},
            {"check", word(one.check)}};
  }

  [[nodiscard]] Json varnish(const chairside::Varnish& one) const {
    return {{"day", name(one.day)}, {"lot", name(one.lot)}};
  }

  [[nodiscard]] Json check(const followup::RetentionCheck& one) const {
    return {{"day", name(one.day)},
            {"placement", name(one.placement)},
            {"kind", word(one.kind)},
            {"blinded", one.blinded},
            {"occlusal", word(one.occlusal)},
            {"buccal", word(one.buccal)},
            {"lingual", word(one.lingual)},
            {"why_not", word(one.why)},
            {"tooth_health", word(one.health)},
            {"lift_test", word(one.lift)},
            {"action", word(one.action)}};
  }

  [[nodiscard]] Json referral(const followup::Referral& one) const {
    return {{"day", name(one.day)},
            {"urgency", word(one.urgency)},
            {"due", one.due.iso()},
            {"to", word(one.to)},
            {"state", word(one.state)}};
  }

  [[nodiscard]] Json outcome(const chairside::DayOutcome& one) const {
    return {{"day", name(one.day)}, {"end", word(one.end)}};
  }

  const Records& records_;
  Pseudonyms alias_;
  std::set<roster::DayId> days_;
  std::map<roster::DayId, base::Date> dates_;
  Groups<roster::Consent> forms_;
  Groups<roster::Consent> consents_; ///< of this term
  Groups<chairside::Authorization> authorizations_;
  Groups<chairside::Screening> screenings_;
  Groups<chairside::Placement> placements_;
  Groups<chairside::Varnish> varnishes_;
  Groups<chairside::DayOutcome> outcomes_;
  Groups<followup::RetentionCheck> checks_;
  Groups<followup::Referral> referrals_;
};

} // namespace

void writeExtract(const Records& records, Scope scope, base::Random& random, std::ostream& out) {
  const Extract extract(records, random);
  const auto head = extract.head(scope).dump(1);
  out << head.substr(0, head.size() - 2) << ",\n \"children\": [";
  const char* before = "\n  ";
  for (const auto& [name, child] : extract.children()) {
    out << before << extract.child(*child).dump();
    before = ",\n  ";
  }
  out << "\n ]\n}\n";
}

} // namespace gk::exchange
