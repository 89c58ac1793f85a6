// The Bench: the prints of the running session as rows, the six stations as columns, the keyboard first. A teacher with
// wet hands and thirty pupils chooses rows, presses Space, and goes on; every key press is one step that Ctrl+Z takes
// back.
#pragma once

#include "ui/bench/bench_table.h"
#include "ui/bench/entry_run.h"
#include "ui/bench/steps.h"
#include "ui/common/view.h"

#include <QTimer>

class QLabel;
class QMenu;
class QPushButton;
class QSplitter;
class QStackedWidget;

namespace washfast::ui {

class BenchModel;
class EmptyState;
class EntryStrip;
class FormPanel;
class KeyLine;
class SessionStrip;
class StationDelegate;

class BenchView : public View {
    Q_OBJECT

public:
    explicit BenchView(const Services& services, QWidget* parent = nullptr);

    [[nodiscard]] QString title() const override { return tr("Bench"); }
    void arrive() override;

    [[nodiscard]] BenchTable* table() const { return table_; }
    [[nodiscard]] BenchModel* model() const { return model_; }
    [[nodiscard]] FormPanel* form() const { return form_; }
    [[nodiscard]] EntryStrip* entry() const { return entry_; }
    [[nodiscard]] SessionStrip* strip() const { return strip_; }
    [[nodiscard]] KeyLine* keys() const { return keys_; }
    [[nodiscard]] EmptyState* empty() const { return empty_; }
    [[nodiscard]] bool showsTable() const;
    /// The prints that a key acts on: the chosen rows, else the current one; in the order of the table.
    [[nodiscard]] QVector<qint64> chosen() const;
    void choose(const QVector<qint64>& prints);

public Q_SLOTS:
    void newSession();
    void newPrints(int count);
    /// Makes a shared record and offers to use it for the chosen prints, or for the session.
    void make(washfast::Entity entity);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void buildTable();
    [[nodiscard]] QWidget* buildTools();
    void buildTop(QWidget* tools);
    void listen();
    void refresh();
    /// When the session is gone, or one came back by redo while there was none.
    void takeNewestSession();
    void showWhere();
    void showKeys();
    void setTheme(const Theme& theme);
    void watchTime();

    [[nodiscard]] Station stationNow() const;
    [[nodiscard]] QString whom(const QVector<qint64>& prints) const;
    [[nodiscard]] PressPlan plan() const;
    [[nodiscard]] CellState leadingState() const;
    [[nodiscard]] bool mayWrite();
    /// What to say of damp sheets among those that are started into exposure or rinse; empty for none.
    [[nodiscard]] QString dampWords(Station station, const QVector<qint64>& prints) const;

    void answer(BenchTable::Ask what, const QString& text);
    void press();
    void touch(int digit);
    void openForm(bool focus);
    void openPage();
    void remove();
    void weigh();
    void readLight();
    void enterRows(LackOf lack, const QString& typed = {});
    void chooseAlike();
    [[nodiscard]] QVector<qint64> rowsToEnter() const;
    void backToTable();
    void offerFor(Entity entity, qint64 record);

    BenchModel* model_;
    BenchTable* table_;
    StationDelegate* delegate_;
    SessionStrip* strip_;
    EntryStrip* entry_;
    FormPanel* form_;
    KeyLine* keys_;
    EmptyState* empty_;
    QStackedWidget* pages_;
    QSplitter* splitter_;
    QLabel* read_only_;
    QPushButton* press_button_ = nullptr;
    std::vector<QWidget*> for_rows_; // tools that need a row
    QTimer second_;
};

} // namespace washfast::ui
