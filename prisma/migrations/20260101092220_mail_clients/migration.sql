-- Clients say when they want mail too: about a report that was issued for them, and about an answer.
ALTER TABLE "mail_wish" ADD COLUMN "reports" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "mail_wish" ADD COLUMN "answers" BOOLEAN NOT NULL DEFAULT false;

grant insert (reports, answers) on mail_wish to curebook_app;

-- A client user reads and says what they themselves want, and sees no mail and no wish of anybody else.
create policy own_wish on mail_wish for select to curebook_app
  using (lab_id = nullif(current_setting('app.lab', true), '')::uuid and by_id = nullif(current_setting('app.member', true), '')::uuid);
create policy said_by_client on mail_wish for insert to curebook_app
  with check (lab_id = nullif(current_setting('app.lab', true), '')::uuid and by_id = nullif(current_setting('app.member', true), '')::uuid);
