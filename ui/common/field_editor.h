// One line of a form for one field of the catalogue: label, editor, unit, and how the value came to be. What is typed
// is committed on Enter or when the focus leaves; a wrong text stays, marked, with a sentence under it.
#pragma once

#include "core/quantity/field.h"
#include "ui/common/theme.h"

#include <QWidget>
#include <functional>

class QAbstractButton;
class QComboBox;
class QHBoxLayout;
class QKeyEvent;
class QLabel;
class QLineEdit;

namespace washfast::ui {

/// What the editor asks for when it needs it: names to choose from for links, and the time now.
struct FieldContext {
    std::function<QStringList(Entity)>
        names; // of the records of an entity that are in use, for fields that are a name of a linked record
    std::function<Instant()> now;
};

class FieldEditor : public QWidget {
    Q_OBJECT

public:
    /// `field` must live longer (it is the catalogue's).
    FieldEditor(const Field& field, FieldContext context, const Theme& theme, QWidget* parent = nullptr);

    [[nodiscard]] const Field& field() const { return field_; }
    /// Shows a value; `mixed`: the chosen prints do not agree. Does not disturb a text that is being typed: the value
    /// waits.
    void show(const Known& value, bool mixed = false);
    /// What the person saw when the typing began, or sees now.
    [[nodiscard]] const Known& shown() const { return shown_; }
    /// Something has been typed that is not committed, be it wrong or not finished.
    [[nodiscard]] bool typing() const;
    /// Forgets what has been typed.
    void drop();
    /// Commits what has been typed, if anything. False when it cannot be understood.
    bool commit();
    void setReadOnly(bool readOnly);
    void setTheme(const Theme& theme);
    [[nodiscard]] QWidget* input() const;
    /// Puts its controls behind `before` in the order of Tab; gives the last of them.
    QWidget* orderAfter(QWidget* before) const;
    [[nodiscard]] QString complaint() const;
    /// A sentence under the editor, until it is shown or committed again.
    void complain(const QString& sentence, bool wrong);
    /// A quiet sentence there, such as where a value comes from that cannot be typed.
    void remark(const QString& sentence);

Q_SIGNALS:
    void entered(const washfast::Known& value);
    void dropped(); // what had been typed was given up, and the value that came meanwhile is shown

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void buildSet(QHBoxLayout& row);
    void buildBox(QHBoxLayout& row, bool named);
    void buildLine(QHBoxLayout& row);
    void display();
    void colourUnder(const QColor& colour);
    void fillChoices();
    void takeSet();
    void markSet();
    bool take();
    void give(const Known& value);
    [[nodiscard]] QString boxText() const;
    bool keyPressed(const QKeyEvent& key);

    const Field& field_;
    FieldContext context_;
    Theme theme_;
    Known shown_;
    bool mixed_ = false;
    bool remarked_ = false; // what stands under it is no complaint
    bool giving_ = false; // while entered() is out; the owner shows what became of it
    std::optional<std::pair<Known, bool>> waiting_; // came while something was being typed
    QLineEdit* line_ = nullptr; // numbers, times, texts
    QComboBox* box_ = nullptr; // choices, yes/no, names of linked records
    std::vector<QAbstractButton*> set_; // several choices
    QLabel* unit_ = nullptr;
    QLabel* under_ = nullptr;
};

} // namespace washfast::ui
