#include "reports/day/close_out_parts.h"

#include "base/text/text.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

struct LaptopSeen {
  LaptopLine line;
  std::set<std::string> hands;
};

class Laptops {
 public:
  explicit Laptops(const DayView& view) : view_(view) {}

  template <class T>
  void add(const Rows<T>& rows) {
    for (const auto& row : rows) {
      auto& seen = seen_[row.stamp.laptop];
      ++seen.line.entries;
      if (!seen.line.last || *seen.line.last < row.stamp.at) seen.line.last = row.stamp.at;
      if (row.stamp.by.author) seen.hands.insert(view_.initials(row.stamp.by.author));
    }
  }

  std::vector<LaptopLine> take(const Rows<followup::BackupNote>& backups) {
    std::vector<LaptopLine> out;
    for (auto& [laptop, seen] : seen_) {
      const auto name = laptop.text();
      seen.line.words = name.substr(name.size() - 4);
      if (!seen.hands.empty())
        seen.line.words += ", " + base::join({seen.hands.begin(), seen.hands.end()}, ", ");
      for (const auto& row : backups)
        if (row.stamp.laptop == laptop) {
          seen.line.backedUp = row.stamp.at;
          seen.line.file = row.value.file;
          seen.line.sameDisk = row.value.sameDisk;
        }
      out.push_back(std::move(seen.line));
    }
    return out;
  }

 private:
  const DayView& view_;
  std::map<base::LaptopId, LaptopSeen> seen_;
};

} // namespace

std::vector<LaptopLine> laptopsOf(const DayView& view) {
  const auto& records = view.records;
  Laptops laptops(view);
  laptops.add(records.seatings);
  laptops.add(records.screenings);
  laptops.add(records.fields);
  laptops.add(records.steps);
  laptops.add(records.placements);
  laptops.add(records.varnishes);
  laptops.add(records.checks);
  laptops.add(records.outcomes);
  laptops.add(records.referrals);
  laptops.add(records.contacts);
  return laptops.take(records.backups);
}

} // namespace gk::reports
