-- A receipt corrected is another row of its chain; it moves no link that came after it.
ALTER TABLE "custody_event" ADD COLUMN     "after_id" UUID,
ADD COLUMN     "standing_mass" DECIMAL;

ALTER TABLE "custody_event" ADD CONSTRAINT "custody_event_lab_id_after_id_fkey" FOREIGN KEY ("lab_id", "after_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

alter table custody_event add constraint custody_event_standing_of_correction check (supersedes_id is not null or (after_id is null and standing_mass is null));
alter table custody_event add constraint custody_event_standing_mass_there check (standing_mass >= 0 and standing_mass < 'Infinity');
grant insert (after_id, standing_mass) on custody_event to curebook_app;
