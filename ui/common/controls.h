// Small controls that several views put together the same way.
#pragma once

#include <QString>

class QComboBox;
class QLabel;
class QWidget;

namespace washfast::ui {

/// A row of choices as wide as so many letters, not as its longest choice.
[[nodiscard]] QComboBox* narrowBox(QWidget* parent, const QString& name, int letters);
/// A text that breaks into lines.
[[nodiscard]] QLabel* wrapped(QWidget* parent);
/// The word before a control; its letter after & leads there.
[[nodiscard]] QLabel* labelFor(const QString& text, QWidget* buddy, QWidget* parent);

} // namespace washfast::ui
