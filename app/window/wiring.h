// Ties the views to the window and to one another, and holds the few texts of the window.
#pragma once

#include "app/window/main_window.h"

namespace washfast {

/// All views of the program, in the order of the list.
[[nodiscard]] std::vector<ViewEntry> allViews();
/// Lets a view lead to the others: a print's page, prints side by side, a filtered table.
void wireView(MainWindow& window, ui::View& view);

/// Why the notebook cannot be changed; empty when it can.
[[nodiscard]] QString readOnlySentence(const store::NotebookFile& file);
/// The same, also when its file was taken away while it was open.
[[nodiscard]] QString standingSentence(const store::NotebookFile& file);
[[nodiscard]] QString cautionText();
[[nodiscard]] QString aboutText();

} // namespace washfast
