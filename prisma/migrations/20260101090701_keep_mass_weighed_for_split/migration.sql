-- What an item weighed when it was split, where its mass was not on record before.
ALTER TABLE "custody_event" ADD COLUMN     "weighed" DECIMAL,
ADD COLUMN     "weighed_text" TEXT;

alter table custody_event add constraint custody_event_weighed_typed check ((weighed is null) = (weighed_text is null));
alter table custody_event add constraint custody_event_weighed_there check (weighed > 0 and weighed < 'Infinity');
grant insert (weighed, weighed_text) on custody_event to curebook_app;
