#pragma once

#include "base/result.h"
#include "reports/table.h"
#include "ui/support/prompter.h"

namespace gk::ui {

/// Asks where, and writes it whole or not at all: a web page or plain text with every table, or
/// `current` alone as CSV, by the ending of the name. Gives the path; none when backed out. Fails
/// as replaceFile.
base::Result<std::optional<QString>> saveReport(Prompter& prompter, const std::string& title,
                                                const std::vector<reports::Table>& tables,
                                                const reports::Table& current);

} // namespace gk::ui
