// Makes or changes a shared record (a mix, a paper, a cover, a site, a term, a session) by a form drawn from the catalogue.
#pragma once

#include "ui/common/view.h"

#include <QDialog>
#include <map>

namespace washfast::ui {

class FieldEditor;

class RecordDialog : public QDialog {
    Q_OBJECT

public:
    /// `id` 0 makes a new record; `owner` is the row it then belongs to (a print for a reading), 0 for none.
    RecordDialog(const Services& services, Entity entity, qint64 id, QWidget* parent, qint64 owner = 0);

    /// The record's id after it has been accepted.
    [[nodiscard]] qint64 id() const { return id_; }
    [[nodiscard]] FieldEditor* editor(const QString& column) const;
    void suggest(const QString& column, const Known& value);

public Q_SLOTS:
    void accept() override;

private:
    [[nodiscard]] Known linkFrom(const Field& field, const QString& name, QString& problem) const;

    Desk& desk_;
    Dialogs& dialogs_;
    Entity entity_;
    qint64 id_;
    qint64 owner_;
    std::vector<std::unique_ptr<Field>> link_fields_; // a link is entered as the name of its target
    std::vector<FieldEditor*> editors_;
    std::map<QString, Known> entered_;
    std::map<QString, Known> before_;
};

/// Asks for a new record; gives its id, or nothing when the person turned back.
[[nodiscard]] std::optional<qint64> makeRecord(const Services& services, Entity entity, QWidget* parent);

} // namespace washfast::ui
