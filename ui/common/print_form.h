// A form for one or many prints: the recordable fields of one station (or a chosen list), drawn from the catalogue.
// What is entered goes to all chosen prints in one step, unless one of them has been changed by somebody else since it
// was shown. Where the prints hold different values, which the form cannot show, the person is asked before any of them
// is replaced.
#pragma once

#include "ui/common/desk.h"
#include "ui/common/dialogs.h"
#include "ui/common/field_editor.h"

#include <QScrollArea>

class QFormLayout;

namespace washfast::ui {

class PrintForm : public QScrollArea {
    Q_OBJECT

public:
    PrintForm(Desk& desk, const Theme& theme, QWidget* parent = nullptr);

    /// All recordable fields of the station.
    void setStation(Station station);
    void setFields(const std::vector<const Field*>& fields);
    void setPrints(const QVector<qint64>& prints);
    [[nodiscard]] QVector<qint64> prints() const { return prints_; }
    void setTheme(const Theme& theme);
    /// Asks here before different values of several prints are replaced, and about times that can hardly be right; a
    /// form that nobody gave a way to ask does neither.
    void setDialogs(Dialogs& dialogs) { dialogs_ = &dialogs; }
    /// Takes the height of all its fields and never scrolls by itself: for a form on a page that scrolls.
    void showWhole();
    /// Puts its editors behind `before` in the order of Tab; gives the last of them, or `before` when there are none.
    QWidget* orderAfter(QWidget* before) const;
    /// Puts the focus on a field, or on the first one.
    void focusField(const QString& key = {});
    [[nodiscard]] FieldEditor* editor(const QString& key) const;

public Q_SLOTS:
    /// Shows the values anew.
    void refresh();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    /// An editor and what each chosen print held when the person last saw it.
    struct Line {
        FieldEditor* editor = nullptr;
        std::vector<Known> seen;
    };
    void enter(const Line& line, const Known& value);
    [[nodiscard]] bool mayReplace(const Line& line, const Known& value);
    [[nodiscard]] bool keep(const Field& field, const Known& value);
    void finishTyping();
    void fitHeight();

    Desk& desk_;
    Dialogs* dialogs_ = nullptr;
    Theme theme_;
    QVector<qint64> prints_;
    std::vector<Line> lines_;
    bool whole_ = false;
};

/// What editors of this desk need.
[[nodiscard]] FieldContext contextFor(Desk& desk);

} // namespace washfast::ui
