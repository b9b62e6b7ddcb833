#pragma once

#include "base/result.h"
#include "base/time/date.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gk::reports {

/// One line of a printed consent form.
struct FormPart {
  enum class Kind {
    heading,
    text,
    box,  ///< a square to check, and what it says
    write ///< labels with a line to write on above them; in `labels`
  };
  Kind kind;
  std::string text{};
  std::vector<std::string> labels{};
  bool operator==(const FormPart&) const = default;
};

/// Who the form is for. All blank for a form that is written on by hand.
struct FormChild {
  std::string number{};
  std::string name{};
  std::string school{};
  std::string grade{};
  std::string room{};
  [[nodiscard]] bool isBlank() const { return number.empty(); }
};

/// A consent form as it is printed: what to read, where to check and sign, and the child's number
/// for the code; a name is never in the code.
struct ConsentSheet {
  std::string language{};
  std::string version{};
  std::string number{};    ///< empty on a blank form
  std::string draftMark{}; ///< empty where a qualified person approved the wording
  std::vector<FormPart> parts{};
};

/// A consent form in one language as a program writes it, checked whole when it is read:
///
///     language: English        lines "key: value", then a line of dashes
///     -----
///     ## A heading
///     {program} comes to {school}.
///     [] Look at my child's teeth
///     __ Signature | Date
///
/// Lines that start with # are remarks.
class ConsentTemplate {
 public:
  /// Fails with `letterTemplate`, naming file and line: a header line that is missing or not
  /// understood, a placeholder that nothing is called, no box, or no line to sign on.
  static base::Result<ConsentTemplate> parse(const std::string& file, std::string_view text);

  [[nodiscard]] const std::string& language() const { return language_; }
  [[nodiscard]] const std::string& version() const { return version_; }
  [[nodiscard]] bool isDraft() const { return approvedBy_.empty(); }
  [[nodiscard]] const std::string& approvedBy() const { return approvedBy_; }
  [[nodiscard]] const std::string& source() const { return source_; } ///< the file, whole
  /// Where the child is blank, what would name it is a line to write on.
  [[nodiscard]] ConsentSheet fill(const std::string& program, const std::string& phone,
                                  const FormChild& child) const;

 private:
  ConsentTemplate() = default;

  std::string source_;
  std::string language_;
  std::string version_;
  std::string approvedBy_;
  std::string draftMark_;
  std::vector<FormPart> parts_;
};

struct ShippedForm {
  std::string_view file;
  std::string_view text;
};
/// Those that come with the program, in English and Spanish; drafts until someone approves them.
const std::vector<ShippedForm>& shippedForms();

} // namespace gk::reports
