#pragma once

#include "reports/records/inputs.h"

#include <unordered_map>

namespace gk::reports {

/// Rows by identity. Points into the rows, which must outlive it.
template <class T>
class Lookup {
 public:
  explicit Lookup(const Rows<T>& rows) {
    found_.reserve(rows.size());
    for (const auto& row : rows)
      found_.emplace(row.id, &row.value);
  }
  [[nodiscard]] const T* find(const typename T::Key& id) const {
    const auto at = found_.find(id);
    return at == found_.end() ? nullptr : at->second;
  }

 private:
  std::unordered_map<typename T::Key, const T*> found_;
};

/// The rows about each child that `keep` holds true for, in the order given.
template <class T>
class PerChild {
 public:
  using Pointers = std::vector<const base::Recorded<T>*>;

  template <class Keep>
  PerChild(const Rows<T>& rows, Keep keep) {
    for (const auto& row : rows)
      if (keep(row)) found_[row.value.child].push_back(&row);
  }
  [[nodiscard]] const Pointers& of(const roster::ChildId& child) const {
    static const Pointers none;
    const auto at = found_.find(child);
    return at == found_.end() ? none : at->second;
  }
  [[nodiscard]] bool has(const roster::ChildId& child) const { return found_.contains(child); }
  [[nodiscard]] std::size_t children() const { return found_.size(); }
  [[nodiscard]] const auto& all() const { return found_; }

 private:
  std::unordered_map<roster::ChildId, Pointers> found_;
};

/// The forms of each child as `standing` wants them.
class Forms {
 public:
  explicit Forms(const Rows<roster::Consent>& rows) {
    for (const auto& row : rows)
      found_[row.value.child].push_back(row);
  }
  [[nodiscard]] const Rows<roster::Consent>& of(const roster::ChildId& child) const {
    static const Rows<roster::Consent> none;
    const auto at = found_.find(child);
    return at == found_.end() ? none : at->second;
  }

 private:
  std::unordered_map<roster::ChildId, Rows<roster::Consent>> found_;
};

/// Of each key the row that was entered last. Points into the rows, which must outlive it.
template <class T, class KeyOf>
auto newestOfEach(const Rows<T>& rows, KeyOf keyOf) {
  std::map<std::decay_t<decltype(keyOf(std::declval<const T&>()))>, const base::Recorded<T>*>
      newest;
  for (const auto& row : rows) {
    auto& kept = newest[keyOf(row.value)];
    if (!kept || kept->stamp.entry < row.stamp.entry) kept = &row;
  }
  return newest;
}

inline bool saysYes(roster::ConsentState state) {
  return state == roster::ConsentState::yes || state == roster::ConsentState::yesWithLimits;
}

} // namespace gk::reports
