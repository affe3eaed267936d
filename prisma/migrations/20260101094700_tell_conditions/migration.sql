-- A value of an oven's or bath's log that was told on a device keeps the device's own time, as a reading does: it may have
-- waited there, and the device's clock may be off. A value that was sent with its time outright has none of these.
ALTER TABLE "condition_value" ADD COLUMN     "event_at" TIMESTAMPTZ(3),
ADD COLUMN     "event_from" TEXT,
ADD COLUMN     "note" TEXT,
ADD COLUMN     "offset_ms" BIGINT,
ADD COLUMN     "sent_at" TIMESTAMPTZ(3);

alter table condition_value add constraint condition_value_told_whole check (num_nonnulls(event_at, event_from, offset_ms, sent_at) in (0, 4));
alter table condition_value add constraint condition_value_note_of_told check (note is null or event_at is not null);
-- guard_append_only granted the columns of its day.
grant insert (event_at, event_from, note, offset_ms, sent_at) on condition_value to curebook_app;
