#pragma once

#include "exchange/lists/workbook.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>

struct zip; // of libzip

namespace gk::exchange {

/// What is heard of one part of a package, element by element; names are without their prefix.
class PartReader {
 public:
  using Attributes = std::map<std::string, std::string, std::less<>>;

  PartReader() = default;
  PartReader(const PartReader&) = delete;
  PartReader& operator=(const PartReader&) = delete;
  virtual ~PartReader() = default;

  virtual void begin(std::string_view name, const Attributes& attributes) = 0;
  virtual void end(std::string_view name) = 0;
  virtual void text(std::string_view words) = 0;
  /// Why reading stops here; empty while it goes on.
  [[nodiscard]] const std::string& trouble() const { return trouble_; }

 protected:
  void stop(std::string why) { trouble_ = std::move(why); }

 private:
  std::string trouble_{};
};

/// A packed file of XML parts, read in pieces within the limits.
class Package {
 public:
  static base::Result<Package> open(std::string_view bytes, const WorkbookLimits& limits);

  [[nodiscard]] bool has(const std::string& part) const;
  /// Hears the whole part, or as far as the reader goes. Fails with `csvMalformed`.
  base::Result<base::Done> read(const std::string& part, PartReader& reader);

 private:
  struct Close {
    void operator()(zip* archive) const;
  };
  Package(std::unique_ptr<zip, Close> archive, const WorkbookLimits& limits)
      : archive_(std::move(archive)), limits_(limits) {}

  std::unique_ptr<zip, Close> archive_;
  WorkbookLimits limits_;
  std::size_t unpacked_ = 0;
};

} // namespace gk::exchange
