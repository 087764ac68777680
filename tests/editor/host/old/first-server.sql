-- The shelf as the first version of the program made it in PostgreSQL, with one book, one edition and one job. It is never changed: newer versions must open it.
create table kysely_migration ("name" character varying(255) not null, "timestamp" character varying(255) not null);
create table kysely_migration_lock ("id" character varying(255) not null, "is_locked" integer not null default 0);
create table books ("name" text not null, "title" text not null, "begun" bigint not null);
create table texts ("print" text not null, "text" text not null);
create table drafts ("book" text not null, "version" bigint not null, "text" text not null, "print" text not null, "who" text not null, "at" bigint not null);
create table draft_history ("book" text not null, "version" bigint not null, "who" text not null, "at" bigint not null, "print" text not null, "whole" text, "change" text);
create table editions ("book" text not null, "number" bigint not null, "title" text not null, "print" text not null, "stands" text not null, "who" text not null, "at" bigint not null, "why" text not null, "standing" text not null, "faults" text not null, "reason" text);
create table jobs ("id" text not null, "title" text not null, "book" text not null, "edition" bigint, "print" text not null, "state" text not null, "begun" bigint not null, "changed" bigint not null, "signed_at" bigint, "signed_by" text, "after_signing" bigint not null, "search" text not null, "agreement" text not null, "trace" bytea);
create table job_entries ("id" text not null, "job" text not null, "at" bigint not null, "device" text not null, "delivered_by" text not null, "delivered_at" bigint not null, "print" text not null, "body" text not null);
create table photos ("print" text not null, "type" text not null, "bytes" bigint not null, "who" text not null, "at" bigint not null, "content" bytea not null);
create table log ("seq" bigint not null, "at" bigint not null, "who" text not null, "what" text not null, "body" text not null, "before" text not null, "hash" text not null);
insert into kysely_migration ("name", "timestamp") values ('0001-first', '2026-11-25T14:18:34.685Z');
insert into kysely_migration_lock ("id", "is_locked") values ('migration_lock', 0);
insert into books ("name", "title", "begun") values ('small-panels', 'Small panels', 1795616314794);
insert into texts ("print", "text") values ('e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'book small-panels, edition 1
    "Small panels"
');
insert into drafts ("book", "version", "text", "print", "who", "at") values ('small-panels', 2, 'book small-panels, edition 1
    "Small panels"

part "More"
', '56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c', 'T. Hale', 1795616314881);
insert into draft_history ("book", "version", "who", "at", "print", "whole", "change") values ('small-panels', 1, 'Ilse Marrow', 1795616314794, 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'book small-panels, edition 1
    "Small panels"
', null);
insert into draft_history ("book", "version", "who", "at", "print", "whole", "change") values ('small-panels', 2, 'T. Hale', 1795616314881, '56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c', null, '{"at":48,"removed":0,"inserted":"\npart \"More\"\n"}');
insert into editions ("book", "number", "title", "print", "stands", "who", "at", "why", "standing", "faults", "reason") values ('small-panels', 1, 'Small panels', 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', '[]', 'Ilse Marrow', 1795616314915, 'first', '{"goals":0,"proved":0,"done":true,"engine":"0.1.0"}', '[]', null);
insert into jobs ("id", "title", "book", "edition", "print", "state", "begun", "changed", "signed_at", "signed_by", "after_signing", "search", "agreement", "trace") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 'front wing', 'small-panels', 1, 'e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb', 'open', 1790812800000, 1790812801000, null, null, 0, 'front wing
small-panels
resin
100 g
lot-1', 'not signed', null);
insert into job_entries ("id", "job", "at", "device", "delivered_by", "delivered_at", "print", "body") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12', '3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 1790812800000, 'tablet 1', 'R. Vane', 1795616314939, 'c22602a3a2d142f5a72ebdd10d173fc1bc06b18b2da1331e33d84edb70b44b48', '{"id":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12","job":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11","at":1790812800000,"device":"tablet 1","does":"begin","book":{"name":"small-panels","edition":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb","sealed":true},"title":"front wing"}');
insert into job_entries ("id", "job", "at", "device", "delivered_by", "delivered_at", "print", "body") values ('3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13', '3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11', 1790812801000, 'tablet 1', 'R. Vane', 1795616314939, 'bcaec53021f5800144e5940efab3489fddf57b6371908180a5ca5dac5b972082', '{"id":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13","job":"3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11","at":1790812801000,"device":"tablet 1","does":"used","line":"u1","what":"resin","amount":"100 g","lot":"LOT-1"}');
insert into photos ("print", "type", "bytes", "who", "at", "content") values ('6456b2ac4bae7c410724a1dbd8eeaaf2a9cb6b03c3e6c82ccd8101b284656791', 'image/jpeg', 6, 'R. Vane', 1795616314957, '\xffd8ff010203');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (1, 1795616314794, 'Ilse Marrow', 'draft', '{"book":"small-panels","version":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb"}', '0000000000000000000000000000000000000000000000000000000000000000', '4c8214f5d2d5efec65a694dc91a15d2df02eb8b83663819df1ca46f6de4dd192');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (2, 1795616314881, 'T. Hale', 'draft', '{"book":"small-panels","version":2,"print":"56abb55504ec153bda5a1e61c0668a47acd48317eb6292c0fca35729e9b8160c"}', '4c8214f5d2d5efec65a694dc91a15d2df02eb8b83663819df1ca46f6de4dd192', '730c6fcb93afbdff2b6635ca0f68ba05b7f9cf4786b4ac9618c2ef348bdb4d22');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (3, 1795616314915, 'Ilse Marrow', 'edition', '{"book":"small-panels","number":1,"print":"e599fb688c93595c914931f69cb9330464fbf41552031495714f78f440d289fb","faults":0}', '730c6fcb93afbdff2b6635ca0f68ba05b7f9cf4786b4ac9618c2ef348bdb4d22', '800fcd7f1e87e40e1249927d06bddf3b636b3aaffc8021d1e0f25cd5f1979e2d');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (4, 1795616314939, 'R. Vane', 'entries', '{"jobs":["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11"],"entries":[["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12","c22602a3a2d142f5a72ebdd10d173fc1bc06b18b2da1331e33d84edb70b44b48"],["3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a13","bcaec53021f5800144e5940efab3489fddf57b6371908180a5ca5dac5b972082"]]}', '800fcd7f1e87e40e1249927d06bddf3b636b3aaffc8021d1e0f25cd5f1979e2d', '0baf2b6d71620c2a00e99ab48c6715c035dcaeae4faddc1d28f7bdd29db41cc1');
insert into log ("seq", "at", "who", "what", "body", "before", "hash") values (5, 1795616314957, 'R. Vane', 'photo', '{"photo":"6456b2ac4bae7c410724a1dbd8eeaaf2a9cb6b03c3e6c82ccd8101b284656791","bytes":6}', '0baf2b6d71620c2a00e99ab48c6715c035dcaeae4faddc1d28f7bdd29db41cc1', '297a4fc32290213c9923872a9477fd790268884e508c6916d59d8b2d6a451fbf');
alter table books add constraint "books_pkey" PRIMARY KEY (name);
alter table draft_history add constraint "draft_history_key" PRIMARY KEY (book, version);
alter table drafts add constraint "drafts_pkey" PRIMARY KEY (book);
alter table editions add constraint "editions_key" PRIMARY KEY (book, number);
alter table job_entries add constraint "job_entries_pkey" PRIMARY KEY (id);
alter table jobs add constraint "jobs_pkey" PRIMARY KEY (id);
alter table kysely_migration_lock add constraint "kysely_migration_lock_pkey" PRIMARY KEY (id);
alter table kysely_migration add constraint "kysely_migration_pkey" PRIMARY KEY (name);
alter table log add constraint "log_pkey" PRIMARY KEY (seq);
alter table photos add constraint "photos_pkey" PRIMARY KEY (print);
alter table texts add constraint "texts_pkey" PRIMARY KEY (print);
alter table draft_history add constraint "draft_history_book_fkey" FOREIGN KEY (book) REFERENCES books(name);
alter table drafts add constraint "drafts_book_fkey" FOREIGN KEY (book) REFERENCES books(name);
alter table editions add constraint "editions_book_fkey" FOREIGN KEY (book) REFERENCES books(name);
CREATE INDEX draft_history_print ON public.draft_history USING btree (print);
CREATE INDEX editions_print ON public.editions USING btree (print);
CREATE INDEX jobs_changed ON public.jobs USING btree (changed, id);
CREATE INDEX jobs_waiting ON public.jobs USING btree (agreement);
CREATE INDEX job_entries_job ON public.job_entries USING btree (job);
CREATE OR REPLACE FUNCTION public.bevelbook_refuse()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$ begin raise exception 'What is in this table is never changed.' using errcode = 'integrity_constraint_violation'; end $function$;
CREATE TRIGGER texts_stays BEFORE DELETE OR UPDATE ON public.texts FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER texts_stays_whole BEFORE TRUNCATE ON public.texts FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER editions_stays BEFORE DELETE OR UPDATE ON public.editions FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER editions_stays_whole BEFORE TRUNCATE ON public.editions FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER job_entries_stays BEFORE DELETE OR UPDATE ON public.job_entries FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER job_entries_stays_whole BEFORE TRUNCATE ON public.job_entries FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER photos_stays BEFORE DELETE OR UPDATE ON public.photos FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER photos_stays_whole BEFORE TRUNCATE ON public.photos FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER log_stays BEFORE DELETE OR UPDATE ON public.log FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER log_stays_whole BEFORE TRUNCATE ON public.log FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER draft_history_stays BEFORE DELETE OR UPDATE ON public.draft_history FOR EACH ROW EXECUTE FUNCTION bevelbook_refuse();
CREATE TRIGGER draft_history_stays_whole BEFORE TRUNCATE ON public.draft_history FOR EACH STATEMENT EXECUTE FUNCTION bevelbook_refuse();
