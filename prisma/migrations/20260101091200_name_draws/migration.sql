-- Out of which bag or container a component of a batch was weighed: part of its reading.
CREATE TABLE "draw" (
    "lab_id" UUID NOT NULL,
    "reading_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "named" BOOLEAN NOT NULL,
    "after_event_id" UUID,
    "given_back_after_id" UUID,
    "written_at" TIMESTAMPTZ(3) NOT NULL DEFAULT clock_timestamp(),

    CONSTRAINT "draw_pkey" PRIMARY KEY ("lab_id","reading_id")
);

CREATE INDEX "draw_lab_id_item_id_idx" ON "draw"("lab_id", "item_id");

ALTER TABLE "draw" ADD CONSTRAINT "draw_lab_id_reading_id_fkey" FOREIGN KEY ("lab_id", "reading_id") REFERENCES "reading"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "draw" ADD CONSTRAINT "draw_lab_id_item_id_fkey" FOREIGN KEY ("lab_id", "item_id") REFERENCES "item"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "draw" ADD CONSTRAINT "draw_lab_id_after_event_id_fkey" FOREIGN KEY ("lab_id", "after_event_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

ALTER TABLE "draw" ADD CONSTRAINT "draw_lab_id_given_back_after_id_fkey" FOREIGN KEY ("lab_id", "given_back_after_id") REFERENCES "custody_event"("lab_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

select guard_append_only('draw');
select guard_staff_only('draw');
