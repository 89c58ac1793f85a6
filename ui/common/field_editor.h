// One line of a form for one field of the catalogue: label, editor, unit, and how the value came to be. What is typed is
// committed on Enter or when the focus leaves; a wrong text stays, marked, with a sentence under it.
#pragma once

#include "core/quantity/field.h"
#include "ui/common/theme.h"

#include <QWidget>
#include <functional>

class QAbstractButton;
class QComboBox;
class QLabel;
class QLineEdit;

namespace washfast::ui {

/// What the editor asks for when it needs it: names to choose from for links, and the time now.
struct FieldContext {
    std::function<QStringList(Entity)> names; // existing names of an entity, for fields that are a name of a linked record
    std::function<Instant()> now;
};

class FieldEditor : public QWidget {
    Q_OBJECT

public:
    /// `field` must live longer (it is the catalogue's).
    FieldEditor(const Field& field, FieldContext context, const Theme& theme, QWidget* parent = nullptr);

    [[nodiscard]] const Field& field() const { return field_; }
    /// Shows a value; `mixed`: the chosen prints do not agree. Does not disturb a text that is being typed.
    void show(const Known& value, bool mixed = false);
    [[nodiscard]] const Known& shown() const { return shown_; }
    /// Commits what has been typed, if anything. False when it cannot be understood.
    bool commit();
    void setReadOnly(bool readOnly);
    void setTheme(const Theme& theme);
    [[nodiscard]] QWidget* input() const;
    [[nodiscard]] QString complaint() const;

Q_SIGNALS:
    void entered(const washfast::Known& value);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void complain(const QString& sentence, bool wrong);
    void fillChoices();
    void takeSet();

    const Field& field_;
    FieldContext context_;
    Theme theme_;
    Known shown_;
    bool mixed_ = false;
    QLineEdit* line_ = nullptr; // numbers, times, texts
    QComboBox* box_ = nullptr; // choices, yes/no, names of linked records
    std::vector<QAbstractButton*> set_; // several choices
    QLabel* unit_ = nullptr;
    QLabel* under_ = nullptr;
};

} // namespace washfast::ui
