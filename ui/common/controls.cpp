#include "ui/common/controls.h"

#include <QComboBox>
#include <QLabel>

namespace washfast::ui {

QComboBox* narrowBox(QWidget* parent, const QString& name, int letters)
{
    auto* box = new QComboBox(parent);
    box->setAccessibleName(name);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(letters);
    return box;
}

QLabel* wrapped(QWidget* parent)
{
    auto* label = new QLabel(parent);
    label->setWordWrap(true);
    return label;
}

QLabel* labelFor(const QString& text, QWidget* buddy, QWidget* parent)
{
    auto* label = new QLabel(text, parent);
    label->setBuddy(buddy);
    return label;
}

} // namespace washfast::ui
