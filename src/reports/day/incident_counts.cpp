#include "reports/day/incident_counts.h"

#include "base/text/text.h"
#include "reports/day/close_out_parts.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

class IncidentTally {
 public:
  void add(const followup::Incident& incident) {
    auto& count = counts_[incident.type];
    count.type = incident.type;
    ++count.count;
    if (followup::isOpen(incident)) ++count.open;
  }
  [[nodiscard]] std::vector<IncidentCount> all() const {
    std::vector<IncidentCount> out;
    for (const auto& entry : counts_)
      out.push_back(entry.second);
    return out;
  }

 private:
  std::map<followup::IncidentType, IncidentCount> counts_;
};

/// Two laptops that corrected one incident apart leave two rows of it: the newer word counts.
auto newestOfEach(const Rows<followup::Incident>& rows) {
  std::map<followup::IncidentId, const base::Recorded<followup::Incident>*> newest;
  for (const auto& row : rows) {
    auto& kept = newest[row.id];
    if (!kept || kept->stamp.entry < row.stamp.entry) kept = &row;
  }
  return newest;
}

} // namespace

std::vector<IncidentCount> incidentCounts(const Rows<followup::Incident>& incidents) {
  IncidentTally tally;
  for (const auto& entry : newestOfEach(incidents))
    tally.add(entry.second->value);
  return tally.all();
}

std::vector<IncidentCount> incidentCounts(const std::vector<IncidentLine>& lines) {
  IncidentTally tally;
  for (const auto& line : lines)
    tally.add(line.incident);
  return tally.all();
}

std::string countWords(const std::vector<IncidentCount>& counts) {
  std::vector<std::string> words;
  for (const auto& one : counts)
    words.push_back(std::to_string(one.count) + " " + named(one.type));
  return base::join(words, ", ");
}

std::vector<IncidentLine> incidentsOf(const DayView& view) {
  std::vector<IncidentLine> out;
  for (const auto& entry : newestOfEach(view.records.incidents)) {
    const auto& row = *entry.second;
    const auto& incident = row.value;
    const bool isEarlier = incident.day != view.records.id;
    if (isEarlier && !followup::isOpen(incident)) continue;
    out.push_back({row.id, incident, incident.child ? view.shown(*incident.child) : "", isEarlier,
                   view.initials(row.stamp.by.author)});
  }
  std::ranges::stable_sort(out, {},
                           [](const IncidentLine& line) { return line.incident.happened.at; });
  return out;
}

} // namespace gk::reports
