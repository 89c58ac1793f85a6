// Makes or changes one record (a mix, a paper, a session; a print's reading or bath) by a form drawn from the
// catalogue. Nothing is written before the person accepts it, and nothing over what somebody else has entered
// meanwhile.
#pragma once

#include "ui/common/view.h"

#include <QDialog>
#include <functional>
#include <map>

class QFormLayout;

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
    /// Done in the same step, when the record has been written: what has to agree with it.
    void setAfterwards(std::function<Outcome(store::Writer&)> afterwards) { afterwards_ = std::move(afterwards); }
    /// Shows a value that is worked out from something else and cannot be typed; the sentence says from what.
    void fix(const QString& column, const QString& sentence);

public Q_SLOTS:
    void accept() override;

private:
    void addEditor(const Field& field, QFormLayout& form, const Theme& theme);
    [[nodiscard]] bool isNamed();
    [[nodiscard]] Known linkFrom(const Field& field, const QString& name, QString& problem) const;
    [[nodiscard]] std::optional<std::vector<store::FieldValue>> gathered();
    [[nodiscard]] Outcome write(store::Writer& writer, const std::vector<store::FieldValue>& values);
    void tellMeanwhile();

    Desk& desk_;
    Dialogs& dialogs_;
    Entity entity_;
    qint64 id_;
    qint64 owner_;
    std::vector<std::unique_ptr<Field>> link_fields_; // a link is entered as the name of its target
    std::vector<FieldEditor*> editors_;
    std::function<Outcome(store::Writer&)> afterwards_;
    std::map<QString, Known> entered_;
    std::map<QString, Known> before_; // what the record held when the person last saw it
};

/// Asks for a new record; gives its id, or nothing when the person turned back.
[[nodiscard]] std::optional<qint64> makeRecord(const Services& services, Entity entity, QWidget* parent);

} // namespace washfast::ui
