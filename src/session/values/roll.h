#pragma once

#include "roster/child/child.h"
#include "session/values/views.h"

#include <cstddef>
#include <deque>
#include <unordered_map>

namespace gk::session {

/// Every child of a logbook with the name, where names are open, for finding among a hundred
/// thousand at each key. In memory alone; wiped when it is cleared or goes.
class Roll {
 public:
  struct Line {
    roster::ChildId child;
    base::EntryId entry; ///< the child's row; lines stand in this order
    std::string number;
    std::string room;
    roster::BirthMonth birth;
    std::string name{};     ///< as shown; empty where it is not known
    std::string called{};   ///< the name, folded
    std::string searched{}; ///< all names, folded
  };

  Roll() = default;
  Roll(Roll&&) noexcept = default;
  Roll& operator=(Roll&&) = delete;
  Roll(const Roll&) = delete;
  Roll& operator=(const Roll&) = delete;
  ~Roll() { clear(); }

  /// In the place of the child's earlier line, if its row is the same; else at the end.
  void put(Line line);
  void remove(const roster::ChildId& child);
  void clear();

  /// By number (with or without check digit) or by part of a name; at most `limit`.
  [[nodiscard]] std::vector<Found> find(const std::string& text, std::size_t limit) const;
  /// Children of this name, as roster::sameName says.
  [[nodiscard]] std::vector<roster::ChildId> called(const std::string& name) const;

  /// Those there are, in order.
  template <class Visit>
  void each(Visit visit) const {
    for (const auto& line : lines_)
      if (!line.number.empty()) visit(line);
  }

 private:
  std::deque<Line> lines_; // a line never moves, so that wiping it wipes all there was of it
  std::unordered_map<roster::ChildId, std::size_t> places_;
};

} // namespace gk::session
