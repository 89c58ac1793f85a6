// The rows that belong to the record chosen on the shelf: parts of a mix, steps of a negative or wedge, patches of a
// card, ingredients of a formula. They are changed and taken away here, each in one step that undo takes back.
#pragma once

#include "ui/common/view.h"

#include <map>

namespace washfast::ui {

class ChildTable;
class RecordDialog;

class ChildRows : public QWidget {
    Q_OBJECT

public:
    explicit ChildRows(const Services& services, QWidget* parent = nullptr);

    /// The kind of row that belongs to records of this kind; nothing for those that have none.
    [[nodiscard]] static std::optional<Entity> childOf(Entity entity);
    /// Shows the rows of this record; hides itself when it can have none.
    void setRecord(Ref record);
    /// The table of the record that is shown; nullptr when it can have no rows.
    [[nodiscard]] ChildTable* table() const;
    void setTheme(const Theme& theme);

public Q_SLOTS:
    void refresh();
    /// First, step and count at once, for a wedge, a film or a card.
    void fillSteps();
    /// What to do, for a formula.
    void changeSteps();

private:
    void make(Entity child);
    void addFill(ChildTable& table);

    Services services_;
    Ref record_ {};
    std::map<Entity, ChildTable*> tables_;
};

/// What a form of the shelf checks beyond the catalogue while it is typed: substances and spectra, with a sentence.
/// Offers the names of substances that are known.
void checkWhileTyping(RecordDialog& dialog);

} // namespace washfast::ui
